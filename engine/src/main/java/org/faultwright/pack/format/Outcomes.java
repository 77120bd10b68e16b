package org.faultwright.pack.format;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;

/** What a word means as an outcome of a step. */
public final class Outcomes {

  private Outcomes() {}

  /**
   * The outcome that a word means: its own name, or {@code positive} and {@code negative} where the
   * two have names of their own.
   *
   * @param names the outcomes of the step; of two, the positive one first
   * @param instead what to write for a step without outcomes; empty: nothing is known
   */
  public static Optional<String> resolve(
      String step, List<String> names, String instead, YamlScalar word, Scope scope) {
    String text = word.text();
    if (names.contains(text)) {
      return Optional.of(text);
    }
    if (names.size() == 2 && text.equals(OutcomeId.POSITIVE.value())) {
      return Optional.of(names.get(0));
    }
    if (names.size() == 2 && text.equals(OutcomeId.NEGATIVE.value())) {
      return Optional.of(names.get(1));
    }
    List<String> words = new ArrayList<>(names);
    if (names.size() == 2) {
      words.addAll(List.of(OutcomeId.POSITIVE.value(), OutcomeId.NEGATIVE.value()));
    }
    scope.error(
        FormatRule.UNKNOWN_OUTCOME,
        word.at(),
        names.isEmpty()
            ? "step '" + step + "' has no outcomes"
            : "step '" + step + "' has no outcome " + word.word(),
        names.isEmpty()
            ? instead
            : Nearest.of(text, words)
                .map(n -> "did you mean '" + n + "'?")
                .orElse("its outcomes are: " + String.join(", ", names)));
    return Optional.empty();
  }
}
