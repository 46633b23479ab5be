package evenside.api.resource;

import evenside.api.http.Cache;
import evenside.api.http.Call;
import evenside.api.http.Reply;
import evenside.api.page.Assets;
import evenside.api.page.Terms;
import evenside.api.page.docs.ApiReference;
import evenside.api.page.docs.Article;
import evenside.api.page.docs.CriteriaSetPage;
import evenside.api.page.docs.Guide;
import evenside.api.page.docs.History;
import evenside.api.page.docs.Home;
import evenside.api.page.docs.Index;
import evenside.api.page.docs.MeasurePages;
import evenside.api.page.docs.ProgressionPage;
import evenside.api.page.docs.SchemaPage;
import evenside.api.page.docs.Sources;
import evenside.api.problem.ProblemType;
import evenside.api.problem.Problems;
import evenside.readiness.Desk;
import evenside.readiness.ReadinessService;
import evenside.schemas.Changes;
import evenside.schemas.Contract;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** The landing page and the documentation: what is published, readable by people. */
public final class DocsResource {
  private final ReadinessService service;
  private final Desk desk;
  private final Terms terms;
  private final Sources sources;
  private final String version;

  /**
   * Over the service.
   *
   * @param version version of the program
   */
  public DocsResource(ReadinessService service, String version) {
    this.service = service;
    this.desk = service.desk();
    this.terms = new Terms(desk.contract());
    this.sources = new Sources(desk.contract());
    this.version = version;
  }

  /** What this instance is. */
  public Reply home(Call call) {
    Home home =
        new Home(version, desk.contract().schemaVersion(), service.ready(), service.ledger().on());
    return Html.reply("home", home).cached(Cache.NONE);
  }

  /** Everything that is published. */
  public Reply index(Call call) {
    Contract contract = desk.contract();
    List<JsonNode> schemas =
        new TreeSet<>(contract.kinds()).stream().map(kind -> read(contract.schema(kind))).toList();
    Index index =
        new Index(
            contract.schemaVersion(),
            Index.sets(read(desk.criteriaSets().bytes()), terms),
            Index.progressions(read(desk.progressions().bytes())),
            Index.schemas(contract.schemaVersion(), schemas));
    return Html.reply("docs", index).cached(Cache.PUBLIC);
  }

  /** How the three kinds of caller use the service. */
  public Reply guide(Call call) {
    return Html.reply("guide", Guide.published()).cached(Cache.PUBLIC);
  }

  /** What changed with each version. */
  public Reply changes(Call call) {
    History history = History.of(Changes.published(), desk.contract());
    return Html.reply("changes", history).cached(Cache.PUBLIC);
  }

  /** The measures. */
  public Reply measures(Call call) {
    return article(MeasurePages.all(read(desk.measures().bytes())));
  }

  /** One measure. */
  public Reply measure(Call call) {
    return article(MeasurePages.one(read(desk.measure(Ids.code(call, "code")).bytes())));
  }

  /** One published criteria set. */
  public Reply criteriaSet(Call call) {
    byte[] set = desk.criteriaSet(Ids.code(call, "id"), Ids.version(call)).bytes();
    return article(new CriteriaSetPage(terms, sources).of(read(set)));
  }

  /** One progression. */
  public Reply progression(Call call) {
    byte[] set = desk.progression(Ids.code(call, "id"), Ids.version(call)).bytes();
    return article(new ProgressionPage(sources).of(read(set)));
  }

  /** One schema. */
  public Reply schema(Call call) {
    Contract contract = desk.contract();
    String kind = Ids.kind(call, contract);
    if (!call.id("version").equals(contract.schemaVersion())) {
      throw Problems.NOTHING_HERE.asException();
    }
    return article(new SchemaPage(contract.schemaVersion()).of(kind, read(contract.schema(kind))));
  }

  /** The API description. */
  public Reply api(Call call) {
    return article(Reference.ARTICLE);
  }

  private static Reply article(Article article) {
    return Html.reply("article", article).cached(Cache.PUBLIC);
  }

  /** Read when the reference is first asked for. */
  private static final class Reference {
    static final Article ARTICLE =
        new ApiReference(YAMLMapper.shared().readTree(OperationsResource.openApi())).article();
  }

  /** All kinds of problem. */
  public Reply problems(Call call) {
    List<ProblemType> types =
        Stream.of(ProblemType.values())
            .sorted(Comparator.comparing(ProblemType::status).thenComparing(ProblemType::slug))
            .toList();
    return Html.reply("problems", types).cached(Cache.PUBLIC);
  }

  /** A file that pages load. */
  public Reply asset(Call call) {
    Assets.Asset asset =
        Assets.named(call.id("name")).orElseThrow(Problems.NOTHING_HERE::asException);
    return Reply.of(asset.bytes(), asset.mediaType()).cached(Cache.IMMUTABLE);
  }

  private static JsonNode read(byte[] json) {
    return JsonMapper.shared().readTree(json);
  }
}
