// Submit, decide, evidence: through the generated TypeScript client alone.
import { readFileSync } from "fs";
import { randomUUID } from "crypto";
import * as api from "./index";

const [host, caseFile, batteryFile, requestFile, futureFile] = process.argv.slice(2);

function read(path: string): unknown {
  return JSON.parse(readFileSync(path, "utf-8"));
}

async function walk(): Promise<void> {
  const configuration = new api.Configuration({ basePath: host });
  const record = new api.RecordApi(configuration);
  const kneeCase = await record.putCase({
    caseId: "typescript-1",
    _case: api.CaseFromJSON(read(caseFile)),
  });
  const battery = await record.addBattery({
    caseId: "typescript-1",
    idempotencyKey: randomUUID(),
    battery: api.BatteryFromJSON(read(batteryFile)),
  });
  const decision = await new api.DecisionsApi(configuration).decide({
    caseId: "typescript-1",
    idempotencyKey: randomUUID(),
    decisionRequest: api.DecisionRequestFromJSON(read(requestFile)),
  });
  const evidence = await new api.AuditApi(configuration).getEvidence({
    decisionId: decision.decisionId,
  });
  const future = api.DecisionFromJSON(read(futureFile));
  console.log(
    JSON.stringify({
      caseId: kneeCase.caseId,
      batteryId: battery.batteryId,
      decisionId: decision.decisionId,
      outcome: decision.outcome,
      evidenceIndex: evidence.index,
      future: future.decisionId,
    }),
  );
}

void walk();
