package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Change;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** Which causes are present in each epoch: the part of a network below events. */
final class Presence {

  private final Pack pack;
  private final Timeline timeline;
  private final Wiring wiring;
  private final List<Map<CauseId, Change>> changes = new ArrayList<>();
  private final List<Map<CauseId, Double>> harms = new ArrayList<>();
  private final Map<HistoryId, Ref> histories = new LinkedHashMap<>();
  private final Map<List<Object>, Ref> causes = new LinkedHashMap<>();
  private final Map<List<Object>, Integer> groups = new LinkedHashMap<>();
  private final Map<List<Object>, Ref> hidden = new LinkedHashMap<>();
  private final Map<List<Object>, Ref> successes = new LinkedHashMap<>();
  private final Map<Coordinate.Strength, Ref> strengths = new LinkedHashMap<>();
  private final Map<Coordinate, Double> stated = new LinkedHashMap<>();
  private final Map<CauseId, int[]> priorParameters = new LinkedHashMap<>();
  private final Map<GroupId, int[]> groupParameters = new LinkedHashMap<>();

  Presence(Pack pack, Lineage lineage, Timeline timeline, Wiring wiring) {
    this.pack = pack;
    this.timeline = timeline;
    this.wiring = wiring;
    for (Step attempt : timeline.attempts()) {
      changes.add(lineage.changes(attempt));
      harms.add(lineage.harms(attempt));
    }
  }

  /**
   * Parameters of causes outside groups: P(own | histories), for each combination first "absent",
   * then "present".
   */
  Map<CauseId, int[]> priorParameters() {
    return priorParameters;
  }

  /** Parameters of groups: P(state | histories), none first, for each combination of histories. */
  Map<GroupId, int[]> groupParameters() {
    return groupParameters;
  }

  Map<Coordinate.Strength, Ref> strengths() {
    return strengths;
  }

  /** The probability that the pack states for bits that are drawn independently. */
  Map<Coordinate, Double> stated() {
    return stated;
  }

  Ref history(HistoryId id) {
    return histories.computeIfAbsent(
        id, h -> wiring.root("history " + h, pack.histories().get(h).likely().p()));
  }

  /** The strength bit of an input, drawn once per case. */
  Ref strength(Coordinate.Owner owner, NodeId input, double p) {
    Coordinate.Strength bit = new Coordinate.Strength(owner, input);
    stated.put(bit, p);
    return strengths.computeIfAbsent(bit, s -> wiring.coin("strength " + s, p));
  }

  /** Whether a cause is present in an epoch. */
  Ref present(CauseId id, int epoch) {
    List<Object> key = List.of(id, epoch);
    Ref known = causes.get(key);
    if (known == null) {
      known = epoch == 0 ? initially(id) : later(id, epoch);
      causes.put(key, known);
    }
    return known;
  }

  /**
   * Whether a cause that is present does not act in an epoch, because the attempt that began it hid
   * the cause.
   */
  Ref hidden(CauseId id, int epoch) {
    if (epoch == 0) {
      return Ref.NO;
    }
    Change change = changes.get(epoch - 1).get(id);
    if (change == null) {
      return Ref.NO;
    }
    return hidden.computeIfAbsent(
        List.of(id, epoch),
        k -> wiring.coin("hidden " + id + " in epoch " + epoch, change.hides().p()));
  }

  private Ref initially(CauseId id) {
    Cause cause = pack.causes().get(id);
    Ref own;
    if (cause.oneOf().isPresent()) {
      own = member(cause.oneOf().get(), id, 0);
    } else if (cause.likelihood() instanceof Cause.Likelihood.OnlyCaused) {
      own = Ref.NO;
    } else {
      own = own(cause);
    }
    return followed(cause, own, 0, true);
  }

  private Ref own(Cause cause) {
    int[] parents = historyVariables(List.of(cause));
    int v = wiring.model.variable("own " + cause.id(), 2);
    int rows = 1 << parents.length;
    int[] parameters = new int[2 * rows];
    priorParameters.put(cause.id(), parameters);
    factor(parents, v, parameters);
    return new Ref.At(v, 1);
  }

  private void factor(int[] parents, int variable, int[] parameters) {
    int[] variables = java.util.Arrays.copyOf(parents, parents.length + 1);
    variables[parents.length] = variable;
    int[] entries = new int[parameters.length];
    for (int i = 0; i < parameters.length; i++) {
      parameters[i] = wiring.model.parameter(0.5);
      entries[i] = wiring.model.entry(parameters[i]);
    }
    wiring.model.factor(variables, entries);
  }

  /**
   * Variables of the histories that the causes come after, in pack order; each has states no and
   * yes.
   */
  private int[] historyVariables(List<Cause> of) {
    return Priors.histories(pack, of).stream()
        .mapToInt(h -> ((Ref.At) history(h)).variable())
        .toArray();
  }

  private Ref followed(Cause cause, Ref own, int epoch, boolean touched) {
    Ref result = own;
    for (var follows : cause.follows().entrySet()) {
      CauseId root = follows.getKey();
      Ref rootNow = present(root, epoch);
      if (touched || !rootNow.equals(present(root, epoch - 1))) {
        Ref u = strength(new Coordinate.Owner.OfFollower(cause.id()), root, follows.getValue().p());
        result = wiring.orAnd(cause.id() + " in epoch " + epoch, result, rootNow, u);
      }
    }
    return result;
  }

  private Ref later(CauseId id, int epoch) {
    Cause cause = pack.causes().get(id);
    if (cause.oneOf().isPresent()) {
      return member(cause.oneOf().get(), id, epoch);
    }
    double pHarm = harms.get(epoch - 1).getOrDefault(id, 0.0);
    if (isRenewed(id, epoch)) {
      return followed(cause, wiring.coin(id + " anew in epoch " + epoch, pHarm), epoch, true);
    }
    Ref before = present(id, epoch - 1);
    Change change = changes.get(epoch - 1).get(id);
    boolean touched = change != null || pHarm > 0;
    return followed(
        cause, touched ? changed(id, before, change, pHarm, epoch) : before, epoch, touched);
  }

  /** Whether a cause stands for a bad new part, and a new part has been put in once more. */
  private boolean isRenewed(CauseId id, int epoch) {
    return timeline
        .attempts()
        .get(epoch - 1)
        .swap()
        .filter(swap -> pack.parts().get(swap.part()).bad().equals(id))
        .isPresent();
  }

  private Ref changed(CauseId id, Ref before, Change change, double pHarm, int epoch) {
    String name = "changed " + id + " in epoch " + epoch;
    Optional<Ref> success = change == null ? Optional.of(Ref.NO) : sharedSuccess(id, change, epoch);
    if (success.isPresent()) {
      return wiring.noisy(
          name, List.of(before, success.get()), t -> t[0] ? (t[1] ? 0.0 : 1.0) : pHarm);
    }
    double stays = 1 - change.cures().p();
    return wiring.noisy(name, List.of(before), t -> t[0] ? stays : pHarm);
  }

  /**
   * The success bit, where it must be one variable because the same attempt is made more than once.
   */
  private Optional<Ref> sharedSuccess(CauseId id, Change change, int epoch) {
    Step attempt = timeline.attempts().get(epoch - 1);
    double cures = change.cures().p();
    long times = timeline.attempts().stream().filter(s -> s.id().equals(attempt.id())).count();
    if (attempt.repeatable() || times < 2) {
      return cures == 0 || cures == 1 ? Optional.of(Ref.of(cures == 1)) : Optional.empty();
    }
    StepId step = attempt.id();
    return Optional.of(
        successes.computeIfAbsent(
            List.of(step, id), k -> wiring.coin("success of " + step + " on " + id, cures)));
  }

  private Ref member(GroupId group, CauseId id, int epoch) {
    int state = 1 + new ArrayList<>(pack.groups().get(group).members()).indexOf(id);
    return new Ref.At(groupVariable(group, epoch), state);
  }

  private int groupVariable(GroupId group, int epoch) {
    List<Object> key = List.of(group, epoch);
    Integer known = groups.get(key);
    if (known == null) {
      known = epoch == 0 ? groupAtFirst(group) : groupLater(group, epoch);
      groups.put(key, known);
    }
    return known;
  }

  private int groupAtFirst(GroupId group) {
    List<Cause> members =
        pack.groups().get(group).members().stream().map(pack.causes()::get).toList();
    int[] parents = historyVariables(members);
    int states = members.size() + 1;
    int v = wiring.model.variable("group " + group, states);
    int[] parameters = new int[states << parents.length];
    groupParameters.put(group, parameters);
    factor(parents, v, parameters);
    return v;
  }

  private int groupLater(GroupId group, int epoch) {
    int before = groupVariable(group, epoch - 1);
    List<CauseId> members = new ArrayList<>(pack.groups().get(group).members());
    Map<CauseId, Change> change = changes.get(epoch - 1);
    Map<CauseId, Double> harm = harms.get(epoch - 1);
    if (members.stream().noneMatch(m -> change.containsKey(m) || harm.getOrDefault(m, 0.0) > 0)) {
      return before;
    }
    List<Ref> bits = new ArrayList<>();
    for (CauseId m : members) {
      Change x = change.get(m);
      bits.add(x == null ? Ref.NO : sharedSuccess(m, x, epoch).orElse(Ref.NO));
    }
    int[] bitVariables =
        bits.stream()
            .filter(r -> r instanceof Ref.At)
            .mapToInt(r -> ((Ref.At) r).variable())
            .toArray();
    int[] parents = new int[bitVariables.length + 1];
    parents[0] = before;
    System.arraycopy(bitVariables, 0, parents, 1, bitVariables.length);
    return wiring.model.conditional(
        "group " + group + " in epoch " + epoch,
        members.size() + 1,
        parents,
        at -> {
          double[] row = new double[members.size() + 1];
          if (at[0] == 0) {
            double left = 1;
            for (int m = 0; m < members.size(); m++) {
              double h = harm.getOrDefault(members.get(m), 0.0);
              row[m + 1] = left * h;
              left *= 1 - h;
            }
            row[0] = left;
            return row;
          }
          CauseId m = members.get(at[0] - 1);
          double cured = change.containsKey(m) ? change.get(m).cures().p() : 0;
          if (bits.get(at[0] - 1) instanceof Ref.At bit) {
            cured = at[1 + indexOf(bitVariables, bit.variable())] == bit.state() ? 1 : 0;
          }
          row[0] = cured;
          row[at[0]] = 1 - cured;
          return row;
        });
  }

  private static int indexOf(int[] array, int value) {
    int i = 0;
    while (array[i] != value) {
      i++;
    }
    return i;
  }
}
