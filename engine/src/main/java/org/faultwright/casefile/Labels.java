package org.faultwright.casefile;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Slips;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Span;

/** The labels of facts, and the one that an expectation points at. */
final class Labels {

  private Labels() {}

  /** The label of a fact; one that has been given before is a problem. */
  static Optional<String> of(FactForms.Labelled fact, Map<String, Span> labels, Scope scope) {
    fact.label()
        .ifPresent(
            label -> {
              Span earlier = labels.putIfAbsent(label.text(), label.at());
              if (earlier != null) {
                scope.error(
                    CaseRule.LABEL_TWICE.id(),
                    label.at(),
                    "label '" + label.text() + "' is given twice",
                    "line " + earlier.line() + " has it: give this fact another one");
              }
            });
    return fact.label().map(YamlScalar::text);
  }

  /** Checks that a fact has the label; if none has, that is a problem. */
  static void check(YamlScalar decisive, Fields f, List<String> caseKeys) {
    List<String> labels = in(f.map(), caseKeys);
    if (!labels.contains(decisive.text())) {
      String near = Nearest.didYouMean(decisive.text(), labels);
      f.scope()
          .error(
              CaseRule.UNKNOWN_LABEL.id(),
              decisive.at(),
              "no fact is labelled " + decisive.word(),
              near.isEmpty() ? "add 'label: " + decisive.text() + "' to the decisive fact" : near);
    }
  }

  /**
   * The labels as written: a fact that could not be read has been reported, and keeps its label.
   */
  private static List<String> in(YamlMap root, List<String> caseKeys) {
    return Slips.corrected(root, caseKeys).value(FactForms.FACTS).stream()
        .filter(YamlList.class::isInstance)
        .flatMap(n -> ((YamlList) n).items().stream())
        .filter(YamlMap.class::isInstance)
        .map(n -> Slips.corrected((YamlMap) n, List.of("label")))
        .flatMap(fact -> fact.text("label").stream())
        .toList();
  }
}
