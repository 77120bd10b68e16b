package org.faultwright.pack.reader;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Chance;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Stated;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Span;

/** Rows of probabilities over outcomes. An outcome that a row does not name has probability 0. */
final class Rows {

  /**
   * A row as written.
   *
   * @param cells outcomes as written, with their probabilities
   */
  record Row(Map<YamlScalar, Stated> cells) {}

  /** The form of a row. */
  static final Form<Row> FORM =
      Ids.map((s, scope) -> Optional.of(s), Chances.stated(0)).as(Row::new);

  private Rows() {}

  /** The row over these outcomes; empty when it names others or does not sum to 1. */
  static Optional<Map<OutcomeId, Chance>> over(
      List<OutcomeId> outcomes, Row row, String what, Span at, Scope scope) {
    List<String> names = outcomes.stream().map(OutcomeId::value).toList();
    Map<String, Chance> chances = new LinkedHashMap<>();
    boolean good = true;
    for (Map.Entry<YamlScalar, Stated> cell : row.cells().entrySet()) {
      String name = cell.getKey().text();
      if (!names.contains(name)) {
        scope.error(
            FormatRule.UNKNOWN_OUTCOME,
            cell.getKey().at(),
            what + " of " + scope.owner() + " names outcome '" + name + "', which is not listed",
            Nearest.of(name, names)
                .map(n -> "did you mean '" + n + "'?")
                .orElse("its outcomes are: " + String.join(", ", names)));
        good = false;
      }
      chances.put(name, cell.getValue().chance());
    }
    // A row with a slip in a name is not summed: the slip alone is reported.
    if (!good || !Chances.sumsToOne(new ArrayList<>(row.cells().values()), what, at, scope)) {
      return Optional.empty();
    }
    Map<OutcomeId, Chance> full = new LinkedHashMap<>();
    for (OutcomeId o : outcomes) {
      full.put(o, chances.getOrDefault(o.value(), Chance.byDefinition(0)));
    }
    return Optional.of(full);
  }
}
