package evenside.readiness.computing;

import evenside.criteria.Binding;
import evenside.criteria.CriteriaSet;
import evenside.decision.Cautions;
import evenside.decision.Decider;
import evenside.decision.Milestone;
import evenside.document.Document;
import evenside.intake.BatteryReader;
import evenside.intake.CatalogueReader;
import evenside.intake.CriteriaSetReader;
import evenside.intake.InstrumentReader;
import evenside.intake.Intake;
import evenside.intake.PlanReader;
import evenside.intake.TrainingCatalogue;
import evenside.measure.MeasureCatalogue;
import evenside.plan.Planner;
import evenside.progression.RedFlagWatch;
import evenside.questionnaire.Instruments;
import evenside.schemas.Contract;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** The published contract, read once at start into what the use cases work with. */
public final class Published {
  private final Contract contract;
  private final CatalogueReader reader;
  private final MeasureCatalogue measures;
  private final Decider decider;
  private final Intake intake;
  private final BatteryReader batteries;
  private final Planner planner;
  private final List<Milestone> milestones;
  private final Advising advising;
  private final RedFlagWatch redFlagWatch;
  private final Map<String, String> usualSets;
  private final Map<String, CriteriaSet> sets = new LinkedHashMap<>();
  private final Map<String, Document> setDocuments = new LinkedHashMap<>();

  /**
   * Reads a contract.
   *
   * @throws IllegalStateException if a published criteria set or instrument does not fit the
   *     catalogue
   */
  public Published(Contract contract) {
    this.contract = contract;
    this.reader = new CatalogueReader(contract);
    this.measures = reader.measures();
    this.decider = new Decider(new Cautions(reader.cautions()));
    Instruments instruments = new InstrumentReader(measures).instruments(contract);
    this.intake = new Intake(contract, reader, measures, instruments);
    this.batteries = new BatteryReader(measures, instruments);
    this.planner = new Planner(intake.plans().focusAreas(), measures);
    this.milestones = reader.milestones();
    this.advising = new Advising(training(), reader.cautions());
    this.redFlagWatch = new RedFlagWatch(training().progressions());
    this.usualSets = reader.usualCriteriaSets();
    contract.criteriaSets().forEach(this::add);
    for (String usual : usualSets.values()) {
      if (!sets.containsKey(usual)) {
        throw new IllegalStateException("a milestone names the unknown criteria set " + usual);
      }
    }
  }

  private void add(JsonNode json) {
    Document document = Document.of(json);
    CriteriaSet set = read(json, document.sha256());
    List<Binding.Misfit> misfits = Binding.misfits(set, measures);
    if (!misfits.isEmpty()) {
      throw new IllegalStateException(set.name() + " does not fit the catalogue: " + misfits);
    }
    sets.put(set.name(), set);
    setDocuments.put(set.name(), document);
  }

  /** A criteria set that the intake has accepted, now or when it was kept. */
  public CriteriaSet read(JsonNode json, String sha256) {
    return new CriteriaSetReader(reader, measures).read(json, sha256);
  }

  /** True if a published set has this id, in whatever version. */
  public boolean reserved(String id) {
    return sets.values().stream().anyMatch(set -> set.id().equals(id));
  }

  public Contract contract() {
    return contract;
  }

  public MeasureCatalogue measures() {
    return measures;
  }

  Decider decider() {
    return decider;
  }

  public Intake intake() {
    return intake;
  }

  BatteryReader batteries() {
    return batteries;
  }

  public PlanReader plans() {
    return intake.plans();
  }

  public Planner planner() {
    return planner;
  }

  /** The milestones in their usual order. */
  public List<Milestone> milestones() {
    return milestones;
  }

  /** Progressions and exercises. */
  public TrainingCatalogue training() {
    return intake.training();
  }

  public Advising advising() {
    return advising;
  }

  public RedFlagWatch redFlagWatch() {
    return redFlagWatch;
  }

  /** A published criteria set by {@code id/version}. */
  public Optional<CriteriaSet> set(String name) {
    return Optional.ofNullable(sets.get(name));
  }

  /** The set that is taken for a milestone if none is named. */
  public Optional<CriteriaSet> usualSet(String milestone) {
    return Optional.ofNullable(usualSets.get(milestone)).flatMap(this::set);
  }

  /** The bytes of a published criteria set by {@code id/version}. */
  public Optional<Document> setDocument(String name) {
    return Optional.ofNullable(setDocuments.get(name));
  }

  /** Every published criteria set. */
  public Iterable<CriteriaSet> sets() {
    return sets.values();
  }
}
