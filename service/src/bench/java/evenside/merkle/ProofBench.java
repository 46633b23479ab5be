package evenside.merkle;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The proof of one entry in a tree that is in memory: making it, checking it, growing the tree. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class ProofBench {
  /** Entries of the tree. */
  @Param({"1000", "1000000"})
  private int size;

  private final Map<Subtree, Hash> nodes = new HashMap<>();
  private Frontier frontier = Frontier.empty();
  private Hash leaf = Hash.EMPTY;
  private long index;
  private List<Hash> proof = List.of();

  /** Grows the tree, keeping the nodes that proofs are made of. */
  @Setup
  public void prepare() {
    nodes.clear();
    frontier = Frontier.empty();
    index = size / 3;
    for (long i = 0; i < size; i++) {
      List<Hash> completed = frontier.append(leaf(i));
      for (int level = 0; level < completed.size(); level++) {
        nodes.put(new Subtree(level, i >> level), completed.get(level));
      }
    }
    leaf = leaf(index);
    proof = inclusion();
    if (!root().equals(Optional.of(frontier.head().root()))) {
      throw new IllegalStateException("the proof does not lead to the root");
    }
  }

  private static Hash leaf(long number) {
    return Hash.leaf(ByteBuffer.allocate(Long.BYTES).putLong(number).array());
  }

  /** The hashes that prove an entry. */
  @Benchmark
  public List<Hash> inclusion() {
    List<Hash> hashes = new ArrayList<>();
    InclusionProof.path(index, size).forEach(span -> hashes.add(span.hash(nodes::get)));
    return hashes;
  }

  /** The root they lead to. */
  @Benchmark
  public Optional<Hash> root() {
    return InclusionProof.root(leaf, index, size, proof);
  }

  /** One more entry, and the new root. */
  @Benchmark
  public TreeHead append() {
    Frontier grown = frontier.copy();
    grown.append(leaf);
    return grown.head();
  }
}
