package org.faultwright.pack.reader;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Sequence;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.format.Stated;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;

/** A step that watches how far something gets. */
final class Sequences {

  private static final Form<YamlScalar> STAGE =
      Forms.scalar("a stage", new Shape.Pattern(Ids.SPELLING, false), (s, scope) -> Optional.of(s));

  /** A stage for sure, or stages with their probabilities. */
  private static final Form<Map<NodeId, Map<YamlScalar, Stated>>> ENDS =
      Forms.some(
          Ids.map(
              Ids::node,
              Forms.scalarOr(
                  STAGE.as(Sequences::surely),
                  Forms.some(Ids.map((s, scope) -> Optional.of(s), Chances.stated(1))))));

  private static final Key<Set<OutcomeId>> STAGES =
      Key.required(
          "stages", Forms.some(Forms.set(Ids.spelt(OutcomeId::new))), "the stages, in order");
  private static final Key<Map<NodeId, Map<YamlScalar, Stated>>> STOPS =
      Key.optional("stops", ENDS, "causes, each with the furthest stage that is then seen");
  private static final Key<Map<NodeId, Map<YamlScalar, Stated>>> LOOPS =
      Key.optional("loops", ENDS, "causes, each with the stage from which it begins again");
  private static final Key<Map<NodeId, Stated>> BEFORE_KEY =
      Key.optional(
          "before-key",
          Forms.some(Ids.map(Ids::node, Chances.stated(1))),
          "causes, each with P(current is drawn before the key is pressed)");
  private static final Key<Chance> READS =
      Key.optional("reads", Chances.chance(), "P(what is noted is what happened)");

  private static final List<Key<?>> MUST_NOT_BE_SPOILT = List.of(STOPS, LOOPS, BEFORE_KEY, READS);

  static final Form<Observation> FORM =
      Forms.built(
          Block.of("sequence", STAGES, STOPS, LOOPS, BEFORE_KEY, READS)
              .withBasis()
              .atLeastOneOf(STOPS, LOOPS, BEFORE_KEY),
          Sequences::observation);

  private Sequences() {}

  private static Map<YamlScalar, Stated> surely(YamlScalar stage) {
    return Map.of(stage, new Stated(BigDecimal.ONE, Chance.byDefinition(1), stage.at()));
  }

  /** The outcomes by name, of a sequence that may have slips. */
  static Set<String> outcomes(List<String> stages, boolean beforeKey, boolean loops) {
    Set<String> names = new LinkedHashSet<>();
    if (beforeKey) {
      names.add(Sequence.BEFORE_KEY.value());
    }
    names.addAll(stages);
    if (loops) {
      names.add(Sequence.LOOPS.value());
    }
    return names;
  }

  private static Optional<Observation> observation(Fields f) {
    if (!f.complete() || MUST_NOT_BE_SPOILT.stream().anyMatch(f::spoilt)) {
      return Optional.empty();
    }
    List<OutcomeId> stages = List.copyOf(f.need(STAGES));
    boolean good = true;
    for (OutcomeId stage : stages) {
      if (Sequence.isReserved(stage)) {
        f.scope()
            .error(
                FormatRule.RESERVED_ID,
                f.at(STAGES),
                "no stage of "
                    + f.scope().owner()
                    + " can be called '"
                    + stage
                    + "': the word has a meaning here",
                "call the stage something else");
        good = false;
      }
    }
    Map<NodeId, BigDecimal> sums = new LinkedHashMap<>();
    Map<NodeId, Stated> early = f.get(BEFORE_KEY).orElse(Map.of());
    Map<NodeId, Chance> beforeKey = new LinkedHashMap<>();
    for (Map.Entry<NodeId, Stated> e : early.entrySet()) {
      good &= adds(sums, e.getKey(), e.getValue(), f);
      beforeKey.put(e.getKey(), e.getValue().chance());
    }
    List<OutcomeId> beforeLast = stages.subList(0, stages.size() - 1);
    Optional<Map<NodeId, Map<OutcomeId, Chance>>> stops = ends(f, STOPS, stages, beforeLast, sums);
    Optional<Map<NodeId, Map<OutcomeId, Chance>>> loops = ends(f, LOOPS, stages, stages, sums);
    if (!good || stops.isEmpty() || loops.isEmpty()) {
      return Optional.empty();
    }
    Chance reads = f.get(READS).orElse(Chance.byDefinition(Sequence.DEFAULT_READS));
    return Optional.of(
        new Sequence(stages, beforeKey, stops.get(), loops.get(), reads).observation());
  }

  private static Optional<Map<NodeId, Map<OutcomeId, Chance>>> ends(
      Fields f,
      Key<Map<NodeId, Map<YamlScalar, Stated>>> key,
      List<OutcomeId> stages,
      List<OutcomeId> allowed,
      Map<NodeId, BigDecimal> sums) {
    Map<NodeId, Map<OutcomeId, Chance>> ends = new LinkedHashMap<>();
    boolean good = true;
    for (Map.Entry<NodeId, Map<YamlScalar, Stated>> e : f.get(key).orElse(Map.of()).entrySet()) {
      Map<OutcomeId, Chance> of = new LinkedHashMap<>();
      for (Map.Entry<YamlScalar, Stated> at : e.getValue().entrySet()) {
        Optional<OutcomeId> stage = stage(at.getKey(), stages, allowed, f);
        good &= stage.isPresent() && adds(sums, e.getKey(), at.getValue(), f);
        stage.ifPresent(s -> of.put(s, at.getValue().chance()));
      }
      ends.put(e.getKey(), of);
    }
    return good ? Optional.of(ends) : Optional.empty();
  }

  private static Optional<OutcomeId> stage(
      YamlScalar word, List<OutcomeId> stages, List<OutcomeId> allowed, Fields f) {
    for (OutcomeId stage : allowed) {
      if (stage.value().equals(word.text())) {
        return Optional.of(stage);
      }
    }
    List<String> names = stages.stream().map(OutcomeId::value).toList();
    if (names.contains(word.text())) {
      f.scope()
          .error(
              FormatRule.UNKNOWN_STATE,
              word.at(),
              "nothing stops at " + word.word() + ", the last stage of " + f.scope().owner(),
              "name the furthest stage that is seen, or leave the cause out");
    } else {
      f.scope()
          .error(
              FormatRule.UNKNOWN_STATE,
              word.at(),
              f.scope().owner() + " has no stage " + word.word(),
              Nearest.of(word.text(), names)
                  .map(n -> "did you mean '" + n + "'?")
                  .orElse("its stages are: " + String.join(", ", names)));
    }
    return Optional.empty();
  }

  /** Whether a node still has that much left of its probability; takes it. */
  private static boolean adds(Map<NodeId, BigDecimal> sums, NodeId node, Stated more, Fields f) {
    BigDecimal sum = sums.merge(node, more.decimal(), BigDecimal::add);
    BigDecimal over = sum.subtract(BigDecimal.ONE);
    if (over.signum() <= 0) {
      return true;
    }
    f.scope()
        .error(
            FormatRule.ROW_SUM,
            more.at(),
            "what '"
                + node
                + "' does in "
                + f.scope().owner()
                + " sums to more than 100 %: "
                + Chances.percentOf(sum),
            "take away " + Chances.percentOf(over));
    return false;
  }
}
