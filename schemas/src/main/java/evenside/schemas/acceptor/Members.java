package evenside.schemas.acceptor;

import org.jspecify.annotations.Nullable;

/** The members an object schema names, found by name. Fixed once made, at most half full. */
final class Members {

  /**
   * One member.
   *
   * @param check what its value must follow
   * @param required a bit of its own among the required members, or 0
   */
  record Member(String name, Check check, long required) {}

  private final @Nullable Member[] table;

  Members(Iterable<Member> members) {
    int count = 0;
    for (Member member : members) {
      count++;
    }
    table = new @Nullable Member[Integer.highestOneBit(Math.max(1, count)) * 4];
    for (Member member : members) {
      int place = place(member.name());
      while (table[place] != null) {
        place = next(place);
      }
      table[place] = member;
    }
  }

  /** The member of that name, or null. A sender's names cannot make this slow: ours are fixed. */
  @Nullable Member of(String name) {
    int place = place(name);
    Member member = table[place];
    while (member != null && !member.name().equals(name)) {
      place = next(place);
      member = table[place];
    }
    return member;
  }

  private int place(String name) {
    int hash = name.hashCode(); // kept in the string, as the tree's own map has asked for it
    return (hash ^ (hash >>> 15)) & (table.length - 1);
  }

  private int next(int place) {
    return (place + 1) & (table.length - 1);
  }
}
