package org.faultwright.planning;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;

/**
 * Weighs what could be done next: what each test is worth, what each repair would lead to, and what
 * it costs to end the job. The definition is {@code semantics.md}, Cost.
 *
 * <p>Keeps what it has worked out about worlds, ways and repairs, so that looking again after one
 * more fact is cheap. Results never depend on what was asked before. Not thread-safe; the {@link
 * DeviceModel} may be shared.
 */
public final class Planner {

  /** Ways, and costs, that are kept. */
  private static final int KEPT = 32;

  /** Models that are kept; each may grow to some 50 MB. */
  private static final int MODELS_KEPT = 3;

  /** Of more worlds than a plan's time allows for the least likely are left out. */
  private static final long FEWEST = 100;

  private static final long MOST = 50_000;

  /** The time that a plan needs for each world, in nanoseconds: to look at it at all. */
  private static final long PER_WORLD = 200_000;

  /** The part of a plan's time after which no more tables are prepared. */
  private static final double PREPARING = 0.3;

  /** The part of a plan's time after which weighing step by step ends. */
  private static final double WEIGHING = 0.4;

  /** The part of a plan's time in which the whole of it is looked at. */
  private static final double LOOKING_AHEAD = 0.7;

  /** What is left out of a belief in a plan, at most, and as a part of branches not followed. */
  private static final double NEGLIGIBLE = 1e-4;

  private static final double LEAST_OF_LEAST = 0.01;

  private final DeviceModel device;
  private final Shop shop;
  private final List<BenchState> turns;
  private final List<SwitchId> places;
  private final BenchWays allWays;
  private final Map<List<ComplaintId>, CaseModel> caseModels = kept(MODELS_KEPT);
  private final Map<String, BenchWays> ways = kept(KEPT);
  private final Map<CostsKey, Costs> costs = kept(KEPT);

  private record CostsKey(BenchWays ways, OptionalDouble value, OptionalDouble data) {
    @Override
    public boolean equals(Object other) {
      return other instanceof CostsKey k
          && ways == k.ways
          && value.equals(k.value)
          && data.equals(k.data);
    }

    @Override
    public int hashCode() {
      return 31 * System.identityHashCode(ways) + value.hashCode() + 7 * data.hashCode();
    }
  }

  private Planner(DeviceModel device, Shop shop) {
    this.device = device;
    this.shop = shop;
    turns = BenchWays.turnsOf(device.pack());
    places = List.copyOf(BenchWays.switchesThatMatter(device.pack()));
    allWays = BenchWays.of(device.pack(), shop);
  }

  /**
   * A planner for a pack's devices in a shop.
   *
   * @throws IllegalArgumentException when steps of the pack need more than {@value
   *     BenchWays#MOST_SWITCHES} switches
   */
  public static Planner of(DeviceModel device, Shop shop) {
    return new Planner(device, shop);
  }

  static <K, V> Map<K, V> kept(int most) {
    return new LinkedHashMap<>(16, 0.75f, true) {
      private static final long serialVersionUID = 1;

      @Override
      protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
        return size() > most;
      }
    };
  }

  /** Weighs what could be done next in a case. */
  public Weighing look(LikelyWorlds worlds, Situation now, Intake intake, Permissions permissions) {
    Weighing asItStands = assessment(worlds, now, intake, permissions, List.of());
    List<StepId> open = asItStands.repairs().stream().map(RepairWay::repair).toList();
    return asItStands.with(
        agreed(now, permissions).map(s -> assessment(worlds, s, intake, permissions, open)));
  }

  /**
   * What {@link Weighing#costWithoutTests} of {@link #look} says: far quicker, since nothing else
   * is weighed.
   */
  public double costWithoutTests(
      LikelyWorlds worlds, Situation now, Intake intake, Permissions permissions) {
    Setting setting = setting(now, intake, permissions);
    Assessment assessment = new Assessment(setting.model, setting.costs, worlds, now, permissions);
    return setting.nothingLost
        ? assessment.handOver().costWithoutTests()
        : assessment.costWithoutTests();
  }

  private Weighing assessment(
      LikelyWorlds worlds,
      Situation now,
      Intake intake,
      Permissions permissions,
      List<StepId> also) {
    Setting setting = setting(now, intake, permissions);
    Assessment assessment = new Assessment(setting.model, setting.costs, worlds, now, permissions);
    return setting.nothingLost ? assessment.handOver() : assessment.weigh(also);
  }

  /** What a situation is weighed with. */
  record Setting(CaseModel model, Costs costs, boolean nothingLost) {}

  Setting setting(Situation now, Intake intake, Permissions permissions) {
    TurnTables tables = new TurnTables(turns, places, permissions, now);
    BenchWays permitted =
        ways.computeIfAbsent(tables.key, k -> new BenchWays(device.pack(), shop, tables));
    Costs costsOfCase =
        costs.computeIfAbsent(
            new CostsKey(permitted, intake.deviceValue(), intake.dataValue()),
            k -> new Costs(device, shop, intake, permitted, allWays));
    List<ComplaintId> lost =
        now.lost().entrySet().stream()
            .filter(e -> e.getValue() && device.pack().complaints().containsKey(e.getKey()))
            .map(Map.Entry::getKey)
            .toList();
    boolean nothingLost = lost.isEmpty();
    List<ComplaintId> about = nothingLost ? List.copyOf(now.lost().keySet()) : lost;
    CaseModel model = caseModels.computeIfAbsent(about, this::caseModel);
    if (model.isFull()) {
      model = caseModel(about);
      caseModels.put(about, model);
    }
    return new Setting(model, costsOfCase, nothingLost);
  }

  /** What things would cost if every turn of a switch were permitted. */
  Costs leastCosts(Intake intake) {
    return new Costs(device, shop, intake, allWays, allWays);
  }

  DeviceModel device() {
    return device;
  }

  Shop shop() {
    return shop;
  }

  /** What a step costs by itself, the bench ready for it, in the shop's currency. */
  public double costOf(Step step) {
    return Costs.ofStep(device, shop, step);
  }

  /**
   * Plans a case to its end.
   *
   * @throws IllegalArgumentException when the limits do not fit
   */
  public Plan plan(
      LikelyWorlds worlds,
      Situation now,
      Intake intake,
      Permissions permissions,
      PlanLimits limits) {
    Optional<Situation> agreed = limits.asIfAgreed() ? agreed(now, permissions) : Optional.empty();
    Set<ConsentId> asIfAgreed = new LinkedHashSet<>();
    agreed.ifPresent(
        s -> {
          asIfAgreed.addAll(s.consents().keySet());
          asIfAgreed.removeAll(now.consents().keySet());
        });
    long start = System.nanoTime();
    long budget = limits.budget().toNanos();
    LikelyWorlds likeliest =
        worlds.likeliest((int) Math.max(FEWEST, Math.min(MOST, budget / PER_WORLD)));
    PlanSearch search =
        new PlanSearch(
            this,
            intake,
            permissions,
            likeliest,
            agreed.orElse(now),
            Math.min(NEGLIGIBLE, limits.leastP() * LEAST_OF_LEAST),
            start + Math.round(budget * PREPARING));
    PlanWriting writing = new PlanWriting(search, limits, start + budget);
    writing.weigh(search.first(), 1, 0, start + Math.round(budget * WEIGHING));
    search.lookAhead(
        search.first(), limits.mostAhead(), start + Math.round(budget * LOOKING_AHEAD));
    PlanNode root = writing.from(search.first(), 1, 0, start + budget);
    return new Plan(
        root,
        shop,
        Math.min(search.first().atLeast, root.expectedCost()),
        search.ahead(),
        1 - (1 - likeliest.pLeftOut()) * (1 - writing.pLeftOut()),
        asIfAgreed);
  }

  /**
   * Holds a plan of a case against rules of thumb.
   *
   * @param plan made by this planner for the same case
   */
  public PlanComparison compare(
      LikelyWorlds worlds,
      Situation now,
      Intake intake,
      Permissions permissions,
      Plan plan,
      ComparisonLimits limits) {
    Place start = beginning(worlds, now, intake, permissions, plan);
    return new Comparing(start, limits).with(plan);
  }

  /**
   * Whether a case is worth repairing, and from which value of the device on; empty where no
   * function is known to be lost. Makes further plans, as far as the limits say for each.
   *
   * @param plan made by this planner for the same case
   */
  public Optional<RepairOrNot> repairOrNot(
      LikelyWorlds worlds,
      Situation now,
      Intake intake,
      Permissions permissions,
      Plan plan,
      PlanLimits limits) {
    Place start = beginning(worlds, now, intake, permissions, plan);
    return new TurningPoint(start, worlds, limits).find(plan);
  }

  private Place beginning(
      LikelyWorlds worlds, Situation now, Intake intake, Permissions permissions, Plan plan) {
    Situation agreed = now;
    for (ConsentId consent : plan.asIfAgreed()) {
      agreed = agreed.withConsent(consent);
    }
    return Place.beginning(this, intake, permissions, worlds, agreed);
  }

  /** How the job ends where nothing more is done. */
  public PlanNode.End leave(Situation now, Intake intake, Permissions permissions) {
    Setting setting = setting(now, intake, permissions);
    return new PlanSpending(this, setting.model, setting.costs)
        .exit(setting.costs.ways.state(now.on()));
  }

  private CaseModel caseModel(List<ComplaintId> lost) {
    return new CaseModel(device, lost, shop.proof());
  }

  /**
   * The situation in which the customer has agreed to all that guards ask for and nobody has asked
   * yet; empty where that opens nothing.
   */
  private static Optional<Situation> agreed(Situation now, Permissions permissions) {
    Set<ConsentId> unasked = new LinkedHashSet<>();
    Set<Guard> affected = new LinkedHashSet<>();
    for (Guard guard : permissions.steps().values()) {
      addUnasked(guard, now, unasked, affected);
    }
    for (Guard guard : permissions.turns().values()) {
      addUnasked(guard, now, unasked, affected);
    }
    Situation agreed = now;
    for (ConsentId consent : unasked) {
      agreed = agreed.withConsent(consent);
    }
    for (Guard guard : affected) {
      if (!guard.holdsIn(now) && guard.holdsIn(agreed)) {
        return Optional.of(agreed);
      }
    }
    return Optional.empty();
  }

  private static void addUnasked(
      Guard guard, Situation now, Set<ConsentId> unasked, Set<Guard> affected) {
    for (ConsentId consent : new GuardReferences(guard.condition()).consents) {
      // that data may be lost is not taken for granted as other consents are
      if (!now.consents().containsKey(consent) && !consent.equals(Conventions.RISK_DATA)) {
        unasked.add(consent);
        affected.add(guard);
      }
    }
  }
}
