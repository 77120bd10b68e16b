package org.faultwright.pack.reader;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Names;
import org.faultwright.pack.format.Scope;

/**
 * Looks for events that are made of themselves, for causes that follow themselves, and for chains
 * of either that are longer than any device is.
 */
final class Cycles {

  /** Longest chain of events, or of causes that follow one another. */
  static final int LONGEST_CHAIN = 200;

  private final PackDraft draft;
  private final Scope scope;

  Cycles(PackDraft draft, Scope scope) {
    this.draft = draft;
    this.scope = scope;
  }

  /** Whether there are none; those that there are have been reported. */
  boolean none() {
    boolean events =
        none(
            draft.events.keySet(),
            Kind.EVENT,
            "is made of",
            id ->
                draft.events.get(id).inputs().keySet().stream()
                    .filter(EventId.class::isInstance)
                    .map(EventId.class::cast)
                    .filter(draft.events::containsKey)
                    .toList());
    boolean causes =
        none(
            draft.causes.keySet(),
            Kind.CAUSE,
            "follows",
            (CauseId id) ->
                draft.causes.get(id).follows().keySet().stream()
                    .filter(draft.causes::containsKey)
                    .toList());
    return events && causes;
  }

  /** Depth first, without recursion: chains can be long before they are known to be too long. */
  private <T extends NodeId> boolean none(
      Collection<T> all, Kind kind, String verb, Function<T, List<T>> below) {
    Map<T, Integer> height = new HashMap<>();
    for (T start : all) {
      List<T> path = new ArrayList<>();
      Deque<Iterator<T>> open = new ArrayDeque<>();
      if (!height.containsKey(start)) {
        path.add(start);
        height.put(start, -1);
        open.push(below.apply(start).iterator());
      }
      while (!open.isEmpty()) {
        if (!open.peek().hasNext()) {
          open.pop();
          T done = path.remove(path.size() - 1);
          int tallest = below.apply(done).stream().mapToInt(height::get).max().orElse(-1) + 1;
          height.put(done, tallest);
          if (tallest > LONGEST_CHAIN) {
            tooLong(done, kind);
            return false;
          }
          continue;
        }
        T next = open.peek().next();
        Integer known = height.get(next);
        if (known == null) {
          path.add(next);
          height.put(next, -1);
          open.push(below.apply(next).iterator());
        } else if (known < 0) {
          cycle(path.subList(path.indexOf(next), path.size()), kind, verb);
          return false;
        }
      }
    }
    return true;
  }

  private <T extends NodeId> void cycle(List<T> circle, Kind kind, String verb) {
    List<String> way = circle.stream().skip(1).limit(8).map(id -> "'" + id.value() + "'").toList();
    scope.error(
        FormatRule.CYCLE,
        scope
            .names()
            .definition(kind, circle.get(0).value())
            .flatMap(Names.Defined::at)
            .orElseThrow(),
        kind.word()
            + " '"
            + circle.get(0).value()
            + "' "
            + verb
            + " itself"
            + (way.isEmpty() ? "" : ", by way of " + String.join(", ", way)),
        "take one of them out of the circle");
  }

  private void tooLong(NodeId id, Kind kind) {
    scope.error(
        FormatRule.CYCLE,
        scope.names().definition(kind, id.value()).flatMap(Names.Defined::at).orElseThrow(),
        "below "
            + kind.word()
            + " '"
            + id.value()
            + "' stands a chain of more than "
            + LONGEST_CHAIN,
        "make the tree flatter");
  }
}
