package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.BiConsumer;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Event;
import org.faultwright.pack.Event.Combination;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;

/** Events without noise, said in other words, leave every posterior as it is. */
class EventRewriteProperty {

  /** The same sums in another order. */
  private static final Offset<Double> EXACT = within(1e-10);

  private static final Chance ALWAYS = Chance.byDefinition(1);
  private static final Chance NEVER = Chance.byDefinition(0);

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.situations(PackFeature.all());
  }

  /** {@code any} of some is {@code none} of an event that says {@code none} of them. */
  @Property(tries = 80)
  void deMorgan_changesNothing(@ForAll("situations") Situation s) {
    same(s, rewritten(s.pack(), EventRewriteProperty::deMorgan));
  }

  @Property(tries = 80)
  void splitting_changesNothing(@ForAll("situations") Situation s) {
    same(s, rewritten(s.pack(), EventRewriteProperty::split));
  }

  @Property(tries = 80)
  void flattening_changesNothing(@ForAll("situations") Situation s) {
    same(s, rewritten(s.pack(), (e, into) -> into.put(e.id(), flat(e, s.pack()))));
  }

  private static void same(Situation s, Pack other) {
    BeliefResult one = belief(s.pack(), s.facts());
    BeliefResult two = belief(other, s.facts());
    assertThat(two).hasSameClassAs(one);
    if (one instanceof Belief a && two instanceof Belief b) {
      assertThat(b.logPEvidence()).isEqualTo(a.logPEvidence(), EXACT);
      for (CauseId cause : s.pack().causes().keySet()) {
        assertThat(b.p(cause)).as("%s", cause).isEqualTo(a.p(cause), EXACT);
      }
      for (EventId event : s.pack().events().keySet()) {
        assertThat(b.p(event)).as("%s", event).isEqualTo(a.p(event), EXACT);
      }
    }
  }

  private static BeliefResult belief(Pack pack, java.util.List<Told> facts) {
    return ((CompiledPack) CompiledPack.compile(pack)).belief(facts);
  }

  private static void deMorgan(Event e, Map<EventId, Event> into) {
    boolean noisy = e.inputs().values().stream().anyMatch(strength -> strength.p() < 1);
    if (noisy || e.inputs().isEmpty() || e.combination() instanceof Combination.AtLeast) {
      into.put(e.id(), e);
      return;
    }
    Map<NodeId, Chance> negated = new LinkedHashMap<>();
    if (e.combination() instanceof Combination.Any) {
      negated.put(none(e, "none", e.inputs(), into), ALWAYS);
    } else {
      e.inputs()
          .forEach(
              (x, strength) ->
                  negated.put(none(e, "not-" + x.value(), Map.of(x, strength), into), ALWAYS));
    }
    boolean none = e.combination() instanceof Combination.None;
    Combination now = none ? new Combination.All() : new Combination.None();
    into.put(e.id(), new Event(e.id(), e.title(), now, negated, e.otherwise()));
  }

  private static EventId none(
      Event of, String name, Map<NodeId, Chance> inputs, Map<EventId, Event> into) {
    EventId id = new EventId(of.id() + "-" + name);
    into.put(id, new Event(id, "", new Combination.None(), inputs, NEVER));
    return id;
  }

  private static void split(Event e, Map<EventId, Event> into) {
    if (e.inputs().size() < 2 || e.combination() instanceof Combination.AtLeast) {
      into.put(e.id(), e);
      return;
    }
    Map<NodeId, Chance> half = new LinkedHashMap<>();
    Map<NodeId, Chance> rest = new LinkedHashMap<>();
    e.inputs().forEach((x, p) -> (half.size() < e.inputs().size() / 2 ? half : rest).put(x, p));
    EventId id = new EventId(e.id() + "-half");
    Combination of =
        e.combination() instanceof Combination.All ? e.combination() : new Combination.Any();
    into.put(id, new Event(id, "", of, half, NEVER));
    rest.put(id, ALWAYS);
    into.put(e.id(), new Event(e.id(), e.title(), e.combination(), rest, e.otherwise()));
  }

  /**
   * With the inputs of an input in its place, where both are any, and the inner one has no noise.
   */
  private static Event flat(Event e, Pack pack) {
    Map<NodeId, Chance> inputs = new LinkedHashMap<>();
    e.inputs()
        .forEach(
            (x, p) -> {
              boolean plain =
                  p.p() == 1
                      && !(e.combination() instanceof Combination.AtLeast)
                      && !(e.combination() instanceof Combination.All)
                      && x instanceof EventId inner
                      && isPlainAny(pack.events().get(inner));
              if (!plain) {
                // one that came with a flattened input is surely enough already
                inputs.putIfAbsent(x, p);
              } else {
                pack.events().get((EventId) x).inputs().forEach(inputs::put);
              }
            });
    return new Event(e.id(), e.title(), e.combination(), inputs, e.otherwise());
  }

  private static boolean isPlainAny(Event e) {
    return e.combination() instanceof Combination.Any
        && e.otherwise().p() == 0
        && e.inputs().values().stream().allMatch(p -> p.p() == 1);
  }

  private static Pack rewritten(Pack p, BiConsumer<Event, Map<EventId, Event>> rewrite) {
    Map<EventId, Event> events = new LinkedHashMap<>();
    p.events().values().forEach(e -> rewrite.accept(e, events));
    PackDraft draft = PackDraft.of(p);
    draft.events.clear();
    draft.events.putAll(events);
    return draft.build();
  }
}
