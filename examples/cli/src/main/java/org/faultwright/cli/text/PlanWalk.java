package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.SeenWords;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Spend;

/**
 * A plan in words, as places that a reader can be sent to. Whatever is to be done has a number,
 * counted from 1 down each branch to its end. Immutable.
 *
 * @param root where to begin
 * @param acts all that is to be done, in the order of its numbers
 * @param cautions all cautions of the acts, in the order in which they are first met
 */
public record PlanWalk(Place root, List<Act> acts, List<CautionId> cautions) {

  /** Copies the lists. */
  public PlanWalk {
    acts = List.copyOf(acts);
    cautions = List.copyOf(cautions);
  }

  /** Somewhere in the plan. */
  public sealed interface Place {
    /** P(the job comes here). */
    double p();
  }

  /**
   * Something to do.
   *
   * @param number counted from 1
   * @param kind in capitals: {@code TEST}
   * @param title what to do
   * @param turns the switches to turn first, in order, by the names of their positions
   * @param proofs the function tests that belong to a repair, each with what it needs; the shop's
   *     own where the pack has none
   * @param cautions of the step, its function tests and the turns, in the order of the pack
   * @param limits the most that may be applied, in words
   * @param ways what may come out
   */
  public record Act(
      int number,
      StepId step,
      String kind,
      String title,
      double p,
      Spend spend,
      List<String> turns,
      List<String> proofs,
      List<CautionId> cautions,
      List<String> limits,
      List<Way> ways)
      implements Place {

    /** Copies the lists. */
    public Act {
      turns = List.copyOf(turns);
      proofs = List.copyOf(proofs);
      cautions = List.copyOf(cautions);
      limits = List.copyOf(limits);
      ways = List.copyOf(ways);
    }

    /** Kind and title. */
    public String headline() {
      return kind + ": " + title;
    }

    private Act numbered(int other, List<Way> otherWays) {
      return new Act(
          other, step, kind, title, p, spend, turns, proofs, cautions, limits, otherWays);
    }
  }

  /**
   * What may come out of an act.
   *
   * @param seen in a few words
   * @param p how likely it is once the act is done
   * @param holds what must be read before anything else where it comes out so
   */
  public record Way(String seen, double p, List<String> holds, Place to) {

    /** Copies the list. */
    public Way {
      holds = List.copyOf(holds);
    }

    /** The same way to an act among these, by its number, or to where it is followed no further. */
    private Way to(Map<Integer, Act> acts) {
      if (!(to instanceof Act act)) {
        return this;
      }
      Act there = acts.get(act.number());
      return new Way(
          seen,
          p,
          holds,
          there != null ? there : new Unfollowed(Optional.of(act.headline()), act.p()));
    }
  }

  /**
   * The end of the job.
   *
   * @param pComeback P(the function is lost all the same)
   */
  public record Finish(Ending ending, double p, double pComeback) implements Place {}

  /**
   * Where the plan is not followed any further.
   *
   * @param next what to go on with; empty: to end the job
   */
  public record Unfollowed(Optional<String> next, double p) implements Place {}

  /** The walk through a plan for a device of the pack. */
  public static PlanWalk of(Plan plan, Pack pack) {
    Builder builder = new Builder(pack);
    Place root = builder.place(plan.root(), 1);
    builder.acts.sort(Comparator.comparingInt(Act::number));
    Set<CautionId> cautions = new LinkedHashSet<>();
    builder.acts.forEach(a -> cautions.addAll(a.cautions()));
    return new PlanWalk(root, builder.acts, List.copyOf(cautions));
  }

  /** The letter by which a caution of this plan is called on paper: A, B, up to Z, then AA. */
  public String letter(CautionId caution) {
    int at = cautions.indexOf(caution);
    if (at < 0) {
      throw new IllegalArgumentException("caution must be one of the plan: " + caution);
    }
    StringBuilder letters = new StringBuilder();
    for (int n = at; n >= 0; n = n / 26 - 1) {
      letters.insert(0, (char) ('A' + n % 26));
    }
    return letters.toString();
  }

  /**
   * The same with the likeliest acts alone, as many as are named; ways to others say what to go on
   * with. An act is at least as likely as what follows it, so that no act is left without its way.
   */
  public PlanWalk likeliest(int most) {
    List<Act> kept =
        acts.stream()
            .sorted(Comparator.comparingDouble((Act a) -> -a.p()).thenComparing(Act::number))
            .limit(most)
            .sorted(Comparator.comparing(Act::number))
            .toList();
    List<Act> cut = new ArrayList<>();
    Map<Integer, Act> cutByNumber = new HashMap<>();
    // from the last to the first: what follows an act has a higher number
    for (int i = kept.size() - 1; i >= 0; i--) {
      Act act = kept.get(i);
      List<Way> ways = act.ways().stream().map(w -> w.to(cutByNumber)).toList();
      Act one = act.numbered(i + 1, ways);
      cutByNumber.put(act.number(), one);
      cut.add(0, one);
    }
    Set<CautionId> met = new LinkedHashSet<>();
    cut.forEach(a -> met.addAll(a.cautions()));
    return new PlanWalk(cut.isEmpty() ? root : cut.get(0), cut, List.copyOf(met));
  }

  private static final class Builder {
    private final Pack pack;
    private final List<Act> acts = new ArrayList<>();
    private int last;

    Builder(Pack pack) {
      this.pack = pack;
    }

    Place place(PlanNode node, double p) {
      if (node instanceof PlanNode.DoTest test) {
        int number = ++last;
        List<Way> ways = new ArrayList<>();
        for (PlanNode.Branch b : test.branches()) {
          String seen = SeenWords.of(pack, test.step(), b.seen());
          List<String> holds =
              RaisedHolds.by(pack, test.step(), b.seen()).stream()
                  .map(hold -> Dangers.sentence(hold.says()))
                  .toList();
          double pHere = p * b.p();
          Place then =
              !holds.isEmpty() && b.then() instanceof PlanNode.AndSoOn
                  ? new Unfollowed(Optional.of("what makes it safe"), pHere)
                  : place(b.then(), pHere);
          ways.add(new Way(seen, b.p(), holds, then));
        }
        return act(number, test.step(), p, test.spend(), test.turns(), Optional.empty(), ways);
      } else if (node instanceof PlanNode.DoRepair repair) {
        int number = ++last;
        double pPass = repair.pPass();
        List<Way> ways = new ArrayList<>();
        Place passed = place(repair.ifPassed(), p * pPass);
        ways.add(new Way("function back", pPass, List.of(), passed));
        if (pPass < 1) {
          Place failed = place(repair.ifFailed(), p * (1 - pPass));
          ways.add(new Way("still lost", 1 - pPass, List.of(), failed));
        }
        return act(
            number,
            repair.step(),
            p,
            repair.spend(),
            repair.turns(),
            Optional.of(repair.proofs()),
            ways);
      } else if (node instanceof PlanNode.End end) {
        return new Finish(end.ending(), p, end.pComeback());
      }
      return new Unfollowed(((PlanNode.AndSoOn) node).next().map(s -> Naming.step(pack, s)), p);
    }

    private Act act(
        int number,
        StepId id,
        double p,
        Spend spend,
        List<BenchState> turns,
        Optional<List<StepId>> proofs,
        List<Way> ways) {
      Step step = pack.steps().get(id);
      List<Step> all = new ArrayList<>(List.of(step));
      proofs.orElse(List.of()).forEach(proof -> all.add(pack.steps().get(proof)));
      Act act =
          new Act(
              number,
              id,
              Wording.kind(step),
              Wording.title(pack, id),
              p,
              spend,
              positions(turns),
              proofs.map(this::proofs).orElse(List.of()),
              StepCautions.of(pack, id, turns, proofs.orElse(List.of())),
              all.stream().flatMap(s -> StepWords.limits(pack, s).stream()).distinct().toList(),
              ways);
      acts.add(act);
      return act;
    }

    private List<String> proofs(List<StepId> proofs) {
      return proofs.isEmpty()
          ? List.of("function test of the shop's own")
          : proofs.stream().map(this::proof).toList();
    }

    private String proof(StepId id) {
      List<String> needs = positions(pack.steps().get(id).conditions().bench());
      return Wording.title(pack, id)
          + (needs.isEmpty() ? "" : " (" + String.join(", ", needs) + ")");
    }

    private List<String> positions(Collection<BenchState> states) {
      return states.stream().map(s -> FactWords.of(pack, s)).toList();
    }
  }
}
