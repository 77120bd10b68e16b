package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.planning.CaseModel.Proof;

/**
 * The states that a device can be in as far as repairs and their function tests can tell, with the
 * moves between them. Worlds that no repair and no test tells apart share a state.
 *
 * <p>In a state everything is settled on which the lost functions and their tests hang now; what
 * comes and goes is summed over. States and moves are worked out when they are first met, and kept.
 * Not thread-safe.
 */
final class RepairTable {

  /** A move that changes nothing. */
  static final Spread STAYS = new Spread(new int[0], new double[0]);

  final CaseModel model;

  /** The repairs that bear on the lost functions, by step number, in the pack's order. */
  final int[] repairs;

  private final FaultLogic logic;
  private final Look look;
  private final double[] always;

  /** Causes that some repair touches, and those that one may bring about. */
  private final boolean[] touches;

  private final boolean[] mayCause;
  private final int proofs;

  private final Map<Bits, Integer> known = new HashMap<>();
  private final Map<List<Double>, Integer> inert = new HashMap<>();
  private final Map<Integer, Spread> admitted = new HashMap<>();

  private int count;
  private byte[][] worlds = new byte[16][];
  private boolean[] isInert = new boolean[16];
  private Spread[][] moves = new Spread[16][];
  private double[][] pFail = new double[16][];

  /** For each state 1 where a function is lost to the one who uses the device, else 0. */
  double[] lost = new double[16];

  /** States, or futures of the case model, with probabilities. */
  record Spread(int[] states, double[] p) {

    static Spread of(Map<Integer, Double> sum) {
      return new Spread(
          sum.keySet().stream().mapToInt(Integer::intValue).toArray(),
          sum.values().stream().mapToDouble(Double::doubleValue).toArray());
    }
  }

  RepairTable(CaseModel model) {
    this.model = model;
    this.logic = model.logic;
    this.repairs = model.repairs;
    this.look = new Look(logic);
    this.proofs = model.proofs.size();
    always = new double[logic.causeCount()];
    Arrays.fill(always, 1);
    touches = new boolean[logic.causeCount()];
    mayCause = new boolean[logic.causeCount()];
    for (int r : repairs) {
      for (int c : model.device.effects[r].touched) {
        touches[c] = true;
      }
      for (int c : model.device.effects[r].mayCause()) {
        mayCause[c] = true;
      }
    }
  }

  int count() {
    return count;
  }

  /** A world that a state stands for; nobody may change it. */
  byte[] world(int state) {
    return worlds[state];
  }

  /** P(a function test fails), by state and test. */
  double pFail(int state, int proof) {
    return pFail[state][proof];
  }

  /** The states that a future of the case model stands for. */
  Spread statesOf(int future) {
    Spread found = admitted.get(future);
    if (found == null) {
      Map<Integer, Double> sum = new LinkedHashMap<>();
      admit(model.futureWorld(future).clone(), 1, sum);
      found = Spread.of(sum);
      admitted.put(future, found);
    }
    return found;
  }

  /** Where a repair leads from a state. */
  Spread moves(int state, int repair) {
    Spread found = moves[state][repair];
    if (found == null) {
      found = isInert[state] ? STAYS : movesOf(state, repairs[repair]);
      moves[state][repair] = found;
    }
    return found;
  }

  private Spread movesOf(int state, int step) {
    Map<Integer, Double> sum = new LinkedHashMap<>();
    model.device.effects[step].spread(
        worlds[state],
        (world, p) -> {
          Spread to = statesOf(model.future(world));
          for (int i = 0; i < to.states.length; i++) {
            sum.merge(to.states[i], p * to.p[i], Double::sum);
          }
        });
    if (sum.size() == 1 && sum.containsKey(state)) {
      return STAYS;
    }
    return Spread.of(sum);
  }

  // Settling what matters.

  private void admit(byte[] world, double p, Map<Integer, Double> sum) {
    Integer state = known.get(new Bits(world));
    if (state != null) {
      sum.merge(state, p, Double::sum);
      return;
    }
    double[] fails = new double[proofs];
    int bit = settle(world, fails);
    if (bit == Facet.SETTLED) {
      sum.merge(add(world, fails), p, Double::sum);
      return;
    }
    byte[] other = world.clone();
    world[bit] = 1;
    other[bit] = 0;
    admit(world, p * logic.pBit(bit), sum);
    admit(other, p * (1 - logic.pBit(bit)), sum);
  }

  /** Works out P(fail) of each function test; a bit on which one of them hangs where one does. */
  private int settle(byte[] world, double[] fails) {
    look.at(world, always, true);
    for (int node : model.lostNodes) {
      if (look.value(node) == FaultLogic.UNKNOWN) {
        return look.pivot(node);
      }
    }
    for (int t = 0; t < proofs; t++) {
      Proof proof = model.proofs.get(t);
      look.at(world, proof.sight().pActs, proof.sight().hiddenToo);
      fails[t] = 0;
      int bit = addFailures(proof.sight(), 1, fails, t, new double[proof.sight().findings.size()]);
      if (bit != Facet.SETTLED) {
        return bit;
      }
    }
    return Facet.SETTLED;
  }

  private int addFailures(Sight sight, double p, double[] fails, int at, double[] row) {
    int pivot = sight.settle(look, row);
    if (pivot == Facet.SETTLED) {
      fails[at] += p * (1 - row[sight.pass]);
      return Facet.SETTLED;
    }
    if (pivot >= 0) {
      return pivot;
    }
    double pActs = look.pOf(pivot);
    look.set(pivot, (byte) 1);
    int bit = addFailures(sight, p * pActs, fails, at, row);
    if (bit == Facet.SETTLED) {
      look.set(pivot, (byte) 0);
      bit = addFailures(sight, p * (1 - pActs), fails, at, row);
    }
    look.set(pivot, FaultLogic.UNKNOWN);
    return bit;
  }

  private int add(byte[] world, double[] fails) {
    look.at(world, always, true);
    double isLost = 0;
    for (int node : model.lostNodes) {
      isLost = look.value(node) == 1 ? 1 : isLost;
    }
    boolean stays = isInert(world);
    if (stays) {
      List<Double> key = new ArrayList<>();
      key.add(isLost);
      for (double f : fails) {
        key.add(f);
      }
      Integer same = inert.putIfAbsent(key, count);
      if (same != null) {
        known.put(new Bits(world), same);
        return same;
      }
    }
    grow();
    int state = count++;
    known.put(new Bits(world), state);
    worlds[state] = world;
    isInert[state] = stays;
    moves[state] = new Spread[repairs.length];
    pFail[state] = fails;
    lost[state] = isLost;
    return state;
  }

  private void grow() {
    if (count == worlds.length) {
      int size = 2 * count;
      worlds = Arrays.copyOf(worlds, size);
      isInert = Arrays.copyOf(isInert, size);
      moves = Arrays.copyOf(moves, size);
      pFail = Arrays.copyOf(pFail, size);
      lost = Arrays.copyOf(lost, size);
    }
  }

  // What no repair can change.

  /**
   * A world in which everything is unknown that the repairs may change.
   *
   * @param stays a cause that is taken to stay there and not to be hidden; -1: none
   * @param harm whether repairs may do harm
   */
  private byte[] haze(byte[] world, int stays, boolean harm) {
    byte[] haze = world.clone();
    for (int c : logic.rootsFirst) {
      boolean appears = harm && mayCause[c];
      if (world[c] == 0) {
        FaultLogic.Inputs roots = logic.follows[c];
        for (int j = 0; j < roots.nodes().length; j++) {
          appears |= haze[roots.nodes()[j]] != 0 && Look.bit(haze, roots.bits()[j]) != 0;
        }
      }
      haze[c] = world[c] == 1 ? (byte) (touches[c] ? 2 : 1) : (byte) (appears ? 2 : 0);
      int hidden = logic.hiddenPlace(c);
      haze[hidden] = world[hidden] == 1 || touches[c] ? FaultLogic.UNKNOWN : 0;
      if (c == stays) {
        haze[c] = 1;
        haze[hidden] = 0;
      }
    }
    return haze;
  }

  private boolean isInert(byte[] world) {
    byte[] haze = haze(world, -1, true);
    look.at(haze, always, true);
    for (int node : model.lostNodes) {
      if (look.value(node) == FaultLogic.UNKNOWN) {
        return false;
      }
    }
    for (Proof proof : model.proofs) {
      look.at(haze, proof.sight().pActs, proof.sight().hiddenToo);
      if (proof.sight().settle(look, new double[proof.sight().findings.size()]) != Facet.SETTLED) {
        return false;
      }
    }
    return true;
  }

  /**
   * A cause that is there, and what it does to each function test while it stays, whatever else
   * there is.
   *
   * @param pFails P(the test fails | the cause is not hidden), at least
   * @param pCheats P(it passes | the cause is not hidden, and no harm has been done), at least,
   *     where a function is lost to the one who uses the device; else 0
   * @param pCheatsHidden the same where the cause is hidden
   */
  record Trouble(
      int cause, List<Double> pFails, List<Double> pCheats, List<Double> pCheatsHidden) {}

  /** The troubles of a state. */
  List<Trouble> troubles(int state) {
    List<Trouble> found = new ArrayList<>();
    for (int c = 0; c < logic.causeCount(); c++) {
      if (worlds[state][c] == 1) {
        byte[] haze = haze(worlds[state], c, true);
        byte[] unharmed = haze(worlds[state], c, false);
        byte[] hidden = unharmed.clone();
        hidden[logic.hiddenPlace(c)] = 1;
        look.at(haze, always, true);
        boolean isLost = Arrays.stream(model.lostNodes).anyMatch(n -> look.value(n) == 1);
        List<Double> never = java.util.Collections.nCopies(proofs, 0.0);
        found.add(
            new Trouble(
                c,
                atLeast(haze, false),
                isLost ? atLeast(unharmed, true) : never,
                isLost ? atLeast(hidden, true) : never));
      }
    }
    return found;
  }

  /** For each function test P(it passes, or does not), at least, whatever is unknown. */
  private List<Double> atLeast(byte[] haze, boolean pass) {
    List<Double> least = new ArrayList<>();
    for (Proof proof : model.proofs) {
      look.at(haze, proof.sight().pActs, proof.sight().hiddenToo);
      least.add(pAtLeast(proof.sight(), pass, new double[proof.sight().findings.size()]));
    }
    return least;
  }

  private double pAtLeast(Sight sight, boolean pass, double[] row) {
    int pivot = sight.settle(look, row);
    if (pivot == Facet.SETTLED) {
      return pass ? row[sight.pass] : 1 - row[sight.pass];
    }
    if (pivot >= 0) {
      return 0;
    }
    double pActs = look.pOf(pivot);
    look.set(pivot, (byte) 1);
    double p = pActs * pAtLeast(sight, pass, row);
    look.set(pivot, (byte) 0);
    p += (1 - pActs) * pAtLeast(sight, pass, row);
    look.set(pivot, FaultLogic.UNKNOWN);
    return p;
  }
}
