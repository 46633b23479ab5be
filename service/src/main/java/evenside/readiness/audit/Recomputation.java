package evenside.readiness.audit;

import evenside.criteria.CriteriaSet;
import evenside.decision.Engine;
import evenside.document.Document;
import evenside.evidence.Recompute;
import evenside.readiness.computing.DecisionMaker;
import evenside.readiness.computing.Published;
import evenside.readiness.computing.Scoring;
import evenside.schemas.Contract;
import evenside.schemas.NotJson;
import evenside.schemas.StrictJson;
import tools.jackson.databind.JsonNode;

/** Computes a past decision again from its inputs and its criteria set alone. */
public final class Recomputation implements Recompute {
  private final Published published;
  private final DecisionMaker maker;

  Recomputation(Published published, DecisionMaker maker) {
    this.published = published;
    this.maker = maker;
  }

  /** By this program's rules, offline. */
  public static Recomputation of(Contract contract) {
    Published published = new Published(contract);
    return new Recomputation(published, new DecisionMaker(new Scoring(published)));
  }

  @Override
  public byte[] decision(byte[] inputs, byte[] criteriaSet, String decisionId, String decidedAt) {
    JsonNode json = json(inputs);
    String by = json.path("engineVersion").asString("");
    if (!by.equals(Engine.VERSION)) {
      throw new IllegalArgumentException(
          "decided by engine version %s, this is %s".formatted(by, Engine.VERSION));
    }
    DecisionMaker.Inputs kept = new DecisionMaker.Inputs(Document.ofCanonical(inputs), json);
    return again(decisionId, decidedAt, kept, set(criteriaSet)).bytes();
  }

  /** The decision that this program makes, whatever version decided then. */
  Document again(String id, String decidedAt, DecisionMaker.Inputs inputs, CriteriaSet set) {
    return maker.document(id, decidedAt, inputs, maker.judge(inputs.json(), set, inputs.asOf()));
  }

  /** Reads a criteria set as it was kept. */
  CriteriaSet set(byte[] criteriaSet) {
    return published.read(json(criteriaSet), Document.sha256(criteriaSet));
  }

  private static JsonNode json(byte[] document) {
    try {
      return StrictJson.read(document, StrictJson.Limits.OWN);
    } catch (NotJson broken) {
      throw new IllegalArgumentException("not JSON: " + broken.detail(), broken);
    }
  }
}
