package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;

/** Which causes act, and which events follow, in an epoch as one observation finds them. */
final class Events {

  /**
   * As whom a node is looked at: causes that come and go act anew in each view.
   *
   * @param who what tells one view from another
   * @param mode what the view provokes
   * @param always whether every present cause acts, as in the customer's report
   * @param evenHidden whether causes act that an attempt has hidden for now
   */
  record View(Object who, ModeId mode, boolean always, boolean evenHidden) {

    /** The device in use before the first attempt, over days. */
    static final View REPORT = new View("report", ModeId.AT_REST, true, false);

    /** The device back in use, once nothing is hidden any longer. */
    static final View LATER = new View("later", ModeId.AT_REST, true, true);

    /** A look at the device now. */
    static final View NOW = new View("now", ModeId.AT_REST, false, false);

    /** A look that provokes a mode. */
    static View of(Object who, ModeId mode) {
      return new View(who, mode, false, mode.equals(ModeId.INSPECTION));
    }
  }

  private final Pack pack;
  private final Lineage lineage;
  private final Presence presence;
  private final Wiring wiring;
  private final Map<List<Object>, Ref> draws = new LinkedHashMap<>();
  private final Map<List<Object>, Ref> events = new LinkedHashMap<>();
  private final Map<EventId, Ref> otherwise = new LinkedHashMap<>();

  Events(Pack pack, Lineage lineage, Presence presence, Wiring wiring) {
    this.pack = pack;
    this.lineage = lineage;
    this.presence = presence;
    this.wiring = wiring;
  }

  Map<EventId, Ref> otherwise() {
    return otherwise;
  }

  /** Whether a node acts when looked at directly. */
  Ref acts(NodeId node, int epoch, View view) {
    return node instanceof EventId e ? event(e, epoch, view) : acts((CauseId) node, epoch, view);
  }

  private Ref acts(CauseId id, int epoch, View view) {
    Ref hidden = view.evenHidden() ? Ref.NO : presence.hidden(id, epoch);
    Ref there = wiring.andNot("acting " + id, presence.present(id, epoch), hidden);
    Cause cause = pack.causes().get(id);
    if (!cause.comesAndGoes() || view.always()) {
      return there;
    }
    return draws.computeIfAbsent(
        List.of(id, there, view),
        k ->
            wiring.noisy(
                "draw of " + id, List.of(there), t -> t[0] ? cause.pActs(view.mode()) : 0.0));
  }

  /**
   * Whether a node acts as the input of an event: a bad new part stands in for the causes that the
   * part carries.
   */
  private Ref input(NodeId node, int epoch, View view) {
    Ref acts = acts(node, epoch, view);
    if (node instanceof CauseId cause) {
      for (Part part : lineage.carriers(cause)) {
        if (!part.bad().equals(cause)) {
          acts = wiring.or("input " + cause, acts, presence.present(part.bad(), epoch));
        }
      }
    }
    return acts;
  }

  private Ref event(EventId id, int epoch, View view) {
    Event event = pack.events().get(id);
    List<Ref> inputs = new ArrayList<>();
    event.inputs().keySet().forEach(x -> inputs.add(input(x, epoch, view)));
    List<Object> key = new ArrayList<>(inputs);
    key.add(id);
    Ref known = events.get(key);
    if (known == null) {
      known = combine(event, inputs);
      events.put(key, known);
    }
    return known;
  }

  private Ref combine(Event event, List<Ref> inputs) {
    String name = "event " + event.id();
    Ref l =
        otherwise.computeIfAbsent(
            event.id(), e -> wiring.coin("otherwise " + e, event.otherwise().p()));
    List<Ref> bits = new ArrayList<>();
    event
        .inputs()
        .forEach(
            (x, s) ->
                bits.add(presence.strength(new Coordinate.Owner.OfEvent(event.id()), x, s.p())));
    if (event.combination() instanceof Event.Combination.Any) {
      return any(name, l, inputs, bits);
    } else if (event.combination() instanceof Event.Combination.None) {
      return wiring.or(name, wiring.not(name, any(name, Ref.NO, inputs, bits)), l);
    } else if (event.combination() instanceof Event.Combination.All) {
      Ref all = Ref.YES;
      for (int i = 0; i < inputs.size(); i++) {
        all = wiring.and(name, all, wiring.and(name, inputs.get(i), bits.get(i)));
      }
      return wiring.or(name, all, l);
    }
    int k = ((Event.Combination.AtLeast) event.combination()).k();
    return wiring.or(name, atLeast(name, k, inputs, bits), l);
  }

  /** A noisy any of nodes, as in a state's trigger. */
  Ref trigger(Coordinate.Owner owner, Map<NodeId, Chance> triggers, int epoch, View view) {
    List<Ref> inputs = new ArrayList<>();
    List<Ref> bits = new ArrayList<>();
    triggers.forEach(
        (x, s) -> {
          inputs.add(acts(x, epoch, view));
          bits.add(presence.strength(owner, x, s.p()));
        });
    return any("trigger " + owner, Ref.NO, inputs, bits);
  }

  private Ref any(String name, Ref first, List<Ref> inputs, List<Ref> bits) {
    Ref any = first;
    for (int i = 0; i < inputs.size(); i++) {
      any = wiring.orAnd(name, any, inputs.get(i), bits.get(i));
    }
    return any;
  }

  /** Counts up to k, one input at a time, so that the vote stays as wide as its count. */
  private Ref atLeast(String name, int k, List<Ref> inputs, List<Ref> bits) {
    int counter = -1;
    for (int i = 0; i < inputs.size(); i++) {
      Ref x = wiring.and(name, inputs.get(i), bits.get(i));
      if (x.equals(Ref.NO)) {
        continue;
      }
      int before = counter;
      int[] parents = parents(before, x);
      counter =
          wiring.model.conditional(
              name + " count",
              k + 1,
              parents,
              at -> {
                int count = before < 0 ? 0 : at[0];
                boolean more =
                    x instanceof Ref.Known
                        || at[indexOf(parents, ((Ref.At) x).variable())] == ((Ref.At) x).state();
                double[] row = new double[k + 1];
                row[Math.min(k, count + (more ? 1 : 0))] = 1;
                return row;
              });
    }
    return counter < 0 ? Ref.NO : new Ref.At(counter, k);
  }

  private static int[] parents(int counter, Ref x) {
    List<Integer> parents = new ArrayList<>();
    if (counter >= 0) {
      parents.add(counter);
    }
    if (x instanceof Ref.At at) {
      parents.add(at.variable());
    }
    return parents.stream().mapToInt(Integer::intValue).toArray();
  }

  private static int indexOf(int[] array, int value) {
    int i = 0;
    while (array[i] != value) {
      i++;
    }
    return i;
  }
}
