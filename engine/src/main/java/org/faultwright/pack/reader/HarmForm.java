package org.faultwright.pack.reader;

import java.util.List;
import java.util.Optional;
import org.faultwright.pack.Chance;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Numbers;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/** Harm that a step may do: a probability, or a block with a probability and a cost. */
final class HarmForm {

  /** The probability, and what the harm costs beyond being a new cause. */
  record Stated(Chance chance, double cost) {}

  private static final Form<Chance> CHANCE = Chances.chance();

  private static final Key<Double> COST =
      Key.optional("cost", Numbers.MONEY, "what the harm costs beyond being a new cause");

  private static final Block LONG = Chances.LONG.and(COST).called("harm");

  static final Form<Stated> FORM =
      new Form<>() {
        @Override
        public Optional<Stated> read(YamlNode node, Scope scope) {
          return node instanceof YamlScalar
              ? CHANCE.read(node, scope).map(c -> new Stated(c, 0))
              : LONG.read(node, scope)
                  .flatMap(
                      f ->
                          Chances.fromLong(f, scope)
                              .map(s -> new Stated(s.chance(), f.get(COST).orElse(0.0))));
        }

        @Override
        public Shape shape() {
          return new Shape.Either(List.of(Chances.SHAPE, LONG.shape()));
        }
      };

  private HarmForm() {}
}
