package org.faultwright.pack.reader;

import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Step;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Numbers;

/** The connector whose pins a step reads. */
final class Connectors {

  private static final Key<Integer> PINS =
      Key.required("pins", Numbers.COUNT, "how many pins it has");
  private static final Key<Set<String>> GROUND =
      Key.optional("ground", Forms.set(Forms.TEXT), "its pins that are ground");
  private static final Key<Set<String>> UNUSED =
      Key.optional("unused", Forms.set(Forms.TEXT), "its pins that are connected to nothing");

  /** A connector. */
  static final Form<Step.Connector> FORM =
      Forms.built(Block.of("connector", PINS, GROUND, UNUSED), Connectors::connector);

  private Connectors() {}

  private static Optional<Step.Connector> connector(Fields f) {
    if (!f.complete() || f.spoilt(GROUND) || f.spoilt(UNUSED)) {
      return Optional.empty();
    }
    if (f.need(PINS) < 1) {
      f.scope()
          .error(
              FormatRule.BAD_LIMITS,
              f.at(PINS),
              "a connector has at least one pin, and that of " + f.scope().owner() + " has none",
              "write how many it has");
      return Optional.empty();
    }
    return Optional.of(
        new Step.Connector(
            f.need(PINS), f.get(GROUND).orElse(Set.of()), f.get(UNUSED).orElse(Set.of())));
  }
}
