"""Submit, decide, evidence: through the generated Python client alone."""
import json
import sys
import uuid

import evenside_client as api

host, case_file, battery_file, request_file, future_file = sys.argv[1:]


def read(model, path):
    with open(path, encoding="utf-8") as file:
        return model.from_json(file.read())


client = api.ApiClient(api.Configuration(host=host))
record = api.RecordApi(client)

case = record.put_case("python-1", read(api.Case, case_file))
battery = record.add_battery("python-1", str(uuid.uuid4()), read(api.Battery, battery_file))
decision = api.DecisionsApi(client).decide(
    "python-1", str(uuid.uuid4()), read(api.DecisionRequest, request_file))
evidence = api.AuditApi(client).get_evidence(decision.decision_id)
future = read(api.Decision, future_file)

print(json.dumps({
    "caseId": case.case_id,
    "batteryId": battery.battery_id,
    "decisionId": decision.decision_id,
    "outcome": getattr(decision.outcome, "value", decision.outcome),
    "evidenceIndex": evidence.index,
    "future": future.decision_id,
}))
