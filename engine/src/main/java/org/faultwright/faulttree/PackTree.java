package org.faultwright.faulttree;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.GivenHistory;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;

/**
 * A pack's complaint or event as a fault tree, for a device as it is taken in, before any fact.
 *
 * <p>A cause is a basic event. So is every strength below 1, which joins its input by an and gate
 * ({@code port-worn_in_vbus-missing}), every otherwise ({@code vbus-missing_otherwise}), and the
 * strength with which a cause follows another ({@code protection-blown_from_rail-shorted}). Below a
 * complaint, which is about the device in use, a cause that comes and goes counts as acting; below
 * an event, which is asked about now, it acts at rest ({@code flex-cracked_at-rest}).
 *
 * @param tree the tree, whose basic events have the probabilities of an unknown history
 * @param top the complaint's event, or the event
 * @param dependence what makes causes come together, or exclude one another
 * @param leavesOut what figures that take basic events as independent leave out
 */
public record PackTree(
    FaultTree tree, EventName top, Dependence dependence, Set<LeftOut> leavesOut) {

  /** What figures that take basic events as independent leave out. The circuit does not. */
  public enum LeftOut {
    /** Several causes are more likely after the same history, and so come together. */
    HISTORY,
    /** At most one cause of a group is present. */
    GROUPS
  }

  /** Copies the set. */
  public PackTree {
    leavesOut = Ordered.copy(leavesOut);
  }

  /**
   * The tree of a complaint: the loss of its function in use, as it is reported.
   *
   * @throws IllegalArgumentException when the pack does not have it
   */
  public static PackTree of(CompiledPack pack, ComplaintId complaint) {
    if (!pack.pack().complaints().containsKey(complaint)) {
      throw new IllegalArgumentException("complaint must be one of the pack: " + complaint);
    }
    return new Draft(pack, true).tree(pack.pack().complaints().get(complaint).event());
  }

  /**
   * The tree of an event: that it holds now, at rest.
   *
   * @throws IllegalArgumentException when the pack does not have it
   */
  public static PackTree of(CompiledPack pack, EventId event) {
    if (!pack.pack().events().containsKey(event)) {
      throw new IllegalArgumentException("event must be one of the pack: " + event);
    }
    return new Draft(pack, false).tree(event);
  }

  /** What a cause or event of a pack is called in a tree. */
  public static EventName name(NodeId node) {
    return name(node.value());
  }

  private static EventName name(String text) {
    return new EventName(Character.isDigit(text.charAt(0)) ? "_" + text : text);
  }

  /** A tree in the making. */
  private static final class Draft {

    private static final Formula NEVER = new Formula.Constant(false);

    private final CompiledPack compiled;
    private final Pack pack;
    private final boolean inUse;
    private final Map<EventName, TreeNode> nodes = new LinkedHashMap<>();
    private final Map<NodeId, Formula> acting = new LinkedHashMap<>();
    private final Map<CauseId, Formula> present = new LinkedHashMap<>();
    private final List<HistoryId> roots = new ArrayList<>();
    private final Map<List<CauseId>, Dependence.Given> given = new LinkedHashMap<>();

    Draft(CompiledPack compiled, boolean inUse) {
      this.compiled = compiled;
      this.pack = compiled.pack();
      this.inUse = inUse;
    }

    PackTree tree(EventId top) {
      event(top);
      Dependence dependence =
          new Dependence(
              roots.stream()
                  .map(h -> new Dependence.Root(h.value(), pack.histories().get(h).likely().p()))
                  .toList(),
              List.copyOf(given.values()));
      Set<LeftOut> leavesOut = EnumSet.noneOf(LeftOut.class);
      for (int r = 0; r < roots.size(); r++) {
        int root = r;
        if (given.values().stream().filter(g -> g.roots().contains(root)).count() > 1) {
          leavesOut.add(LeftOut.HISTORY);
        }
      }
      if (!dependence.exclusive().isEmpty()) {
        leavesOut.add(LeftOut.GROUPS);
      }
      return new PackTree(
          new FaultTree(treeName(), pack.title(), nodes), name(top), dependence, leavesOut);
    }

    private String treeName() {
      return name(pack.id().toString().replace('/', '_').replace('+', '_')).value();
    }

    private Formula acts(NodeId node) {
      if (acting.containsKey(node)) {
        return acting.get(node);
      }
      Formula acts = node instanceof EventId e ? event(e) : causeActs((CauseId) node);
      acting.put(node, acts);
      return acts;
    }

    private Formula causeActs(CauseId id) {
      Cause cause = pack.causes().get(id);
      Formula there = present(id);
      if (inUse || !cause.comesAndGoes() || there == NEVER) {
        return there;
      }
      return bit(
          there,
          cause.pActs(ModeId.AT_REST),
          id.value() + "_at-rest",
          cause.title() + ": acts at rest");
    }

    private Formula present(CauseId id) {
      Formula known = present.get(id);
      if (known == null) {
        known = cause(pack.causes().get(id));
        present.put(id, known);
      }
      return known;
    }

    private Formula cause(Cause cause) {
      CauseId id = cause.id();
      List<Formula> ways = new ArrayList<>();
      cause
          .follows()
          .forEach(
              (root, strength) ->
                  ways.add(
                      bit(
                          present(root),
                          strength.p(),
                          id.value() + "_from_" + root.value(),
                          cause.title() + ": follows from " + title(root))));
      ways.removeIf(w -> w == NEVER);
      boolean follows = !ways.isEmpty();
      if (compiled.priors().containsKey(id)) {
        String own = follows ? id.value() + "_own" : id.value();
        depend(id, own);
        ways.add(0, basic(own, own(id), cause.title() + (follows ? ", of its own accord" : "")));
      }
      if (!follows) {
        return ways.isEmpty() ? NEVER : ways.get(0);
      }
      return gate(id.value(), cause.title(), new Formula.Or(ways));
    }

    /** P(cause of its own accord), history unknown. */
    private double own(CauseId id) {
      GivenHistory by = compiled.givenHistory(id);
      int states = by.members().size() + 1;
      int member = by.members().indexOf(id) + 1;
      double p = 0;
      for (int row = 0; row < 1 << by.histories().size(); row++) {
        double weight = 1;
        for (int h = 0; h < by.histories().size(); h++) {
          double likely = pack.histories().get(by.histories().get(h)).likely().p();
          boolean holds = (row >> (by.histories().size() - 1 - h) & 1) == 1;
          weight *= holds ? likely : 1 - likely;
        }
        p += weight * by.rows().get(row * states + member);
      }
      return Math.min(1, p);
    }

    private void depend(CauseId id, String own) {
      GivenHistory by = compiled.givenHistory(id);
      if (by.histories().isEmpty() && by.members().size() == 1) {
        return;
      }
      by.histories().stream().filter(h -> !roots.contains(h)).forEach(roots::add);
      // members of groups follow nothing: a cause that does has a name of its own
      List<EventName> members =
          by.members().size() == 1
              ? List.of(name(own))
              : by.members().stream().map(PackTree::name).toList();
      given.put(
          by.members(),
          new Dependence.Given(
              by.histories().stream().map(roots::indexOf).toList(), members, by.rows()));
    }

    private Formula event(EventId id) {
      Event event = pack.events().get(id);
      List<Formula> inputs = new ArrayList<>();
      event.inputs().forEach((x, strength) -> inputs.add(input(event, x, strength)));
      Formula combined = combined(event.combination(), inputs);
      double otherwise = event.otherwise().p();
      if (otherwise > 0) {
        Formula by =
            basic(id.value() + "_otherwise", otherwise, event.title() + ": for any other reason");
        combined = new Formula.Or(List.of(combined, by));
      }
      return gate(id.value(), event.title(), combined);
    }

    private Formula combined(Event.Combination combination, List<Formula> inputs) {
      if (combination instanceof Event.Combination.All) {
        return inputs.isEmpty() ? new Formula.Constant(true) : new Formula.And(inputs);
      } else if (combination instanceof Event.Combination.AtLeast vote) {
        return vote.k() > inputs.size() ? NEVER : new Formula.AtLeast(vote.k(), inputs);
      }
      List<Formula> possible = inputs.stream().filter(x -> x != NEVER).toList();
      Formula any = possible.isEmpty() ? NEVER : new Formula.Or(possible);
      return combination instanceof Event.Combination.None ? new Formula.Not(any) : any;
    }

    private Formula input(Event event, NodeId node, Chance strength) {
      return bit(
          standIn(node),
          strength.p(),
          node.value() + "_in_" + event.id().value(),
          title(node) + ": strong enough for " + event.title());
    }

    /** A bad new part stands in for the causes that the part carries. */
    private Formula standIn(NodeId node) {
      List<Formula> ways = new ArrayList<>();
      ways.add(acts(node));
      if (node instanceof CauseId cause) {
        for (Part part : compiled.lineage().carriers(cause)) {
          if (!part.bad().equals(cause)) {
            ways.add(present(part.bad()));
          }
        }
      }
      ways.removeIf(w -> w == NEVER);
      return ways.isEmpty() ? NEVER : ways.size() == 1 ? ways.get(0) : new Formula.Or(ways);
    }

    /** Something that needs a bit of its own to be true as well. */
    private Formula bit(Formula of, double p, String bit, String label) {
      if (of == NEVER || p == 0) {
        return NEVER;
      }
      return p == 1 ? of : new Formula.And(List.of(of, basic(bit, p, label)));
    }

    private Formula basic(String name, double p, String label) {
      nodes.put(name(name), new TreeNode.Basic(label, new EventProbability.Fixed(p)));
      return new Formula.Of(name(name));
    }

    private Formula gate(String name, String label, Formula formula) {
      nodes.put(name(name), new TreeNode.Gate(label, formula));
      return new Formula.Of(name(name));
    }

    private String title(NodeId node) {
      return node instanceof CauseId c
          ? pack.causes().get(c).title()
          : pack.events().get((EventId) node).title();
    }
  }
}
