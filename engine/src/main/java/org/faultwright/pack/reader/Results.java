package org.faultwright.pack.reader;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Names;
import org.faultwright.pack.format.Outcomes;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Slips;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;

/**
 * The outcomes of steps and the states of points, by name, before the steps are read: conditions
 * refer to them, and steps have conditions.
 */
final class Results {

  static final String NOTHING = "nothing";
  static final String FAILED = "failed";
  static final String PASSED = "passed";

  private static final List<String> RESULT_KEYS = List.of("outcomes", "positive", "negative");

  private static final List<String> SEQUENCE_KEYS = List.of("stages", "before-key", "loops");

  private static final List<String> COMMON_STATES = List.of("open", "short", "low", "high");

  private Results() {}

  /** The outcomes of a step in the order of writing; for two of them, the positive one first. */
  static Set<String> ofStep(YamlMap step) {
    Optional<YamlMap> shows = step.map("shows");
    if (shows.isPresent()) {
      return ofShows(shows.get());
    }
    Set<String> names = new LinkedHashSet<>();
    step.map("locates").ifPresent(places -> names.addAll(Locating.outcomes(places)));
    step.map("sequence").ifPresent(s -> names.addAll(ofSequence(s)));
    step.map("compare")
        .ifPresent(
            c -> names.addAll(List.of(Comparison.DIFFERS.value(), Comparison.ALIKE.value())));
    if (step.value("proves").isPresent()) {
      names.addAll(List.of(FAILED, PASSED));
    }
    return names;
  }

  private static Set<String> ofSequence(YamlMap written) {
    YamlMap sequence = Slips.corrected(written, SEQUENCE_KEYS);
    List<String> stages = new ArrayList<>();
    if (sequence.value("stages").orElse(null) instanceof YamlList list) {
      for (YamlNode n : list.items()) {
        if (n instanceof YamlScalar s) {
          stages.add(s.text());
        }
      }
    }
    return Sequences.outcomes(
        stages, sequence.value("before-key").isPresent(), sequence.value("loops").isPresent());
  }

  private static Set<String> ofShows(YamlMap written) {
    YamlMap shows = Slips.corrected(written, RESULT_KEYS);
    Optional<YamlNode> outcomes = shows.value("outcomes");
    Set<String> names = new LinkedHashSet<>();
    if (outcomes.isPresent() && outcomes.get() instanceof YamlList list) {
      for (YamlNode n : list.items()) {
        if (n instanceof YamlScalar s) {
          names.add(s.text());
        }
      }
    } else {
      names.add(shows.text("positive").orElse(OutcomeId.POSITIVE.value()));
      names.add(shows.text("negative").orElse(OutcomeId.NEGATIVE.value()));
    }
    return names;
  }

  /** The states of a point off normal, in order of dominance. */
  static List<String> ofPoint(YamlMap point) {
    List<String> names = new ArrayList<>();
    for (Entry e : point.entries()) {
      if (COMMON_STATES.contains(e.name())) {
        names.add(e.name());
      } else if (e.name().equals("states") && e.value() instanceof YamlMap own) {
        own.entries().forEach(s -> names.add(s.name()));
      }
    }
    return names;
  }

  /**
   * The outcome that a word means for a step: its own name, or positive and negative where the two
   * have names of their own.
   */
  static Optional<String> outcome(String step, YamlScalar word, Scope scope) {
    Set<String> names =
        scope
            .names()
            .definition(Kind.STEP, step)
            .flatMap(Names.Defined::block)
            .map(Results::ofStep)
            .orElse(Set.of());
    return Outcomes.resolve(
        step,
        List.copyOf(names),
        "let the step show something, or ask for {done: " + step + "}",
        word,
        scope);
  }

  /** The state that a word means for a point. */
  static Optional<String> state(String point, YamlScalar word, Scope scope) {
    List<String> names =
        new ArrayList<>(
            scope
                .names()
                .definition(Kind.POINT, point)
                .flatMap(Names.Defined::block)
                .map(Results::ofPoint)
                .orElse(List.of()));
    names.add("normal");
    if (names.contains(word.text())) {
      return Optional.of(word.text());
    }
    scope.error(
        FormatRule.UNKNOWN_STATE,
        word.at(),
        "point '" + point + "' has no state " + word.word(),
        Nearest.of(word.text(), names)
            .map(n -> "did you mean '" + n + "'?")
            .orElse("its states are: " + String.join(", ", names)));
    return Optional.empty();
  }
}
