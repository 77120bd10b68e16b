package org.faultwright.rules.facts;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import org.faultwright.casefile.Guard;
import org.faultwright.pack.Condition;

/** Concluded: the whole guard of something. */
public record Composed(Subject subject, Guard guard) {

  private static final Comparator<Requirement> ORDER =
      Comparator.comparing(Requirement::kind).thenComparing(Requirement::words);

  /**
   * The guard that asks for all of the requirements, in an order that does not depend on theirs.
   */
  public static Composed of(Subject subject, Collection<?> requirements) {
    List<Requirement> sorted = new ArrayList<>();
    requirements.forEach(r -> sorted.add((Requirement) r));
    sorted.sort(ORDER);
    List<Condition> parts = sorted.stream().map(Requirement::condition).distinct().toList();
    Condition whole =
        switch (parts.size()) {
          case 0 -> new Condition.Always();
          case 1 -> parts.get(0);
          default -> new Condition.All(parts);
        };
    return new Composed(subject, new Guard(whole));
  }
}
