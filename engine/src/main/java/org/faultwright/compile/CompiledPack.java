package org.faultwright.compile;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.BiConsumer;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.inference.Circuit;
import org.faultwright.inference.CircuitCompiler;
import org.faultwright.inference.Compilation;
import org.faultwright.inference.DiscreteNetwork;
import org.faultwright.inference.Evaluation;
import org.faultwright.inference.Inquiry;
import org.faultwright.inference.Marginals;
import org.faultwright.inference.Model;
import org.faultwright.measurement.PairModel;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;

/**
 * A pack with its priors solved and its network compiled. Shared by any number of threads; results
 * never depend on what was asked before.
 */
public final class CompiledPack implements PackCompilation {

  /** Networks for the attempts and wide observations of open cases that are kept for reuse. */
  private static final int KEPT_NETWORKS = 256;

  private record Key(List<org.faultwright.pack.StepId> attempts, Set<Slot> slots) {}

  record Wired(Network network, Compilation compilation) {

    Circuit circuit() {
      return (Circuit) compilation;
    }

    boolean isWide() {
      return compilation instanceof Compilation.OverBudget;
    }
  }

  private final Pack pack;
  private final Lineage lineage;
  private final double budget;
  private final List<Slots.Candidate> alwaysHeld;
  private final ReadingModels readings;
  private final Map<CauseId, Double> priors;
  private final Map<BoardId, CompiledPack> onBoards = new ConcurrentHashMap<>();
  private final Map<Key, Wired> networks =
      new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Key, Wired> eldest) {
          return size() > KEPT_NETWORKS;
        }
      };

  private CompiledPack(
      Pack pack,
      Lineage lineage,
      double budget,
      List<Slots.Candidate> alwaysHeld,
      Map<CauseId, Double> priors) {
    this.pack = pack;
    this.lineage = lineage;
    this.budget = budget;
    this.alwaysHeld = alwaysHeld;
    this.readings = new ReadingModels(pack);
    this.priors = Ordered.copy(priors);
  }

  /** Compiles a pack with the default budget. */
  public static PackCompilation compile(Pack pack) {
    return compile(pack, CircuitCompiler.DEFAULT_BUDGET);
  }

  /**
   * Compiles a pack.
   *
   * @param budget the most table entries that compiling a network may make
   */
  public static PackCompilation compile(Pack pack, double budget) {
    Lineage lineage = Lineage.of(pack);
    Timeline start = Timeline.of(pack, lineage, List.of());
    Network network = Network.of(pack, lineage, start, Slots.reports(pack));
    Compilation compilation = network.compile(budget);
    if (compilation instanceof Compilation.OverBudget over) {
      return new TooWide(over.predicted(), over.budget());
    }
    Shares shares = new Shares(pack, network, (Circuit) compilation);
    Optional<ComplaintId> off = shares.solve();
    if (off.isPresent()) {
      return new SharesUnattainable(off.get());
    }
    List<Slots.Candidate> alwaysHeld = Slots.alwaysHeld(pack, lineage);
    return new CompiledPack(pack, lineage, budget, alwaysHeld, shares.priors());
  }

  /** The pack. */
  public Pack pack() {
    return pack;
  }

  /**
   * The pack on one of its boards, where it is known: what the board cannot have is absent, and all
   * other causes are as likely as in the family.
   */
  public CompiledPack onBoard(Optional<BoardId> board) {
    return board.isEmpty()
        ? this
        : onBoards.computeIfAbsent(
            board.get(),
            b ->
                BoardPack.of(pack, b, priors)
                    .map(p -> compile(p, budget))
                    .map(c -> c instanceof CompiledPack usable ? usable : this)
                    .orElse(this));
  }

  /** The pack's lineage. */
  public Lineage lineage() {
    return lineage;
  }

  /** Prior probabilities per device taken in, of all causes that have a likelihood of their own. */
  public Map<CauseId, Double> priors() {
    return priors;
  }

  /**
   * How likely a cause is of its own accord, by history; for a member of a group: how likely each
   * member is.
   *
   * @throws IllegalArgumentException when the cause has no likelihood of its own
   */
  public GivenHistory givenHistory(CauseId id) {
    Cause cause = pack.causes().get(id);
    if (cause == null || !priors.containsKey(id)) {
      throw new IllegalArgumentException("cause must have a likelihood of its own: " + id);
    }
    List<CauseId> members =
        cause.oneOf().map(g -> List.copyOf(pack.groups().get(g).members())).orElse(List.of(id));
    double[] rows =
        cause
            .oneOf()
            .map(g -> Priors.rows(pack, pack.groups().get(g), priors))
            .orElseGet(() -> Priors.rows(pack, cause, priors.get(id)));
    return new GivenHistory(
        Priors.histories(pack, members.stream().map(pack.causes()::get).toList()),
        members,
        Arrays.stream(rows).boxed().toList());
  }

  /** The reading model of a point. */
  public ReadingModel readingModel(Point point) {
    return readings.of(point);
  }

  /** What readings of two points say of whether they differ; empty where they cannot. */
  public Optional<PairModel> pairModel(Comparison compares) {
    return readings.of(compares);
  }

  /** Number of operations of the circuit for a device as taken in. */
  public int operations() {
    return wired(Bound.Facts.of(pack, lineage, List.of()), Set.of()).circuit().operations();
  }

  /**
   * The network of a device as taken in, as plain tables: causes, events and everything that can be
   * observed.
   */
  public DiscreteNetwork tables() {
    return wired(Bound.Facts.of(pack, lineage, List.of()), Set.of()).network().tables(priors);
  }

  /**
   * As {@link #tables()}, with everything that the facts observe; to be used with {@link
   * #likelihoods}.
   *
   * @param facts facts about a device as taken in
   */
  public DiscreteNetwork tables(List<Told> facts) {
    return wired(Bound.Facts.of(pack, lineage, facts), Set.of()).network().tables(priors);
  }

  /**
   * What facts about a device as taken in weigh on the variables of {@link #tables(List)}: for each
   * variable that is not indifferent, by number, P(facts | state) up to a common factor. For
   * exchange and comparison.
   *
   * @throws IllegalArgumentException when readings of several points share the error of an
   *     instrument: what they weigh is no product then
   */
  public Map<Integer, double[]> likelihoods(List<Told> facts) {
    Bound.Facts bound = Bound.Facts.of(pack, lineage, facts);
    Network network = wired(bound, Set.of()).network();
    Model model = network.model(priors);
    Evaluation evaluation = CircuitCompiler.weightsOnly(model).evaluation();
    Evidence.Entered entered = Evidence.enter(pack, network, readings, bound.bound(), evaluation);
    if (!entered.offsets().isEmpty()) {
      throw new IllegalArgumentException(
          "readings must not share the error of an instrument: " + facts);
    }
    return PerCase.weighed(evaluation, model);
  }

  /**
   * Whether readings of several points share the error of an instrument, so that there are no
   * {@link #likelihoods}.
   */
  public boolean haveSharedError(List<Told> facts) {
    Bound.Facts bound = Bound.Facts.of(pack, lineage, facts);
    Network network = wired(bound, Set.of()).network();
    Evaluation evaluation = CircuitCompiler.weightsOnly(network.model(priors)).evaluation();
    return !Evidence.enter(pack, network, readings, bound.bound(), evaluation).offsets().isEmpty();
  }

  /**
   * Where the causes are found in {@link #tables(List)}: the state in which each is present. Causes
   * that cannot be present in a device as taken in are missing.
   */
  public Map<CauseId, TableState> causesIn(List<Told> facts) {
    Map<CauseId, TableState> found = new LinkedHashMap<>();
    wired(Bound.Facts.of(pack, lineage, facts), Set.of())
        .network()
        .causes
        .forEach(
            (id, ref) -> {
              if (ref instanceof Ref.At at) {
                found.put(id, new TableState(at.variable(), at.state()));
              }
            });
    return found;
  }

  /**
   * What the facts make one believe.
   *
   * @param facts the facts that stand, in the order in which they were told; attempts among them
   *     begin new epochs
   * @throws IllegalArgumentException when a fact speaks of something that the pack does not have
   */
  public BeliefResult belief(List<Told> facts) {
    return believe(facts, Set.of(), (network, evaluation) -> {});
  }

  /**
   * As {@link #belief(List)}, ready to say how likely the functions of these complaints are lost
   * now without compiling another network.
   */
  public BeliefResult belief(List<Told> facts, Collection<ComplaintId> lostNow) {
    return believe(facts, lost(facts, lostNow), (network, evaluation) -> {});
  }

  /**
   * As {@link #belief(List, Collection)} of some of the facts. Cheap where the same attempts are
   * among them, because the network of all facts then serves.
   *
   * @param some facts of {@code all}, in the same order
   */
  public BeliefResult beliefOfSome(
      List<Told> some, List<Told> all, Collection<ComplaintId> lostNow) {
    Bound.Facts part = Bound.Facts.of(pack, lineage, some);
    return serving(part, all, lost(all, lostNow))
        .map(wired -> believe(some, part, wired, (network, evaluation) -> {}))
        .orElseGet(() -> belief(some, lostNow));
  }

  /** The network of all facts, if it serves for some of them. */
  private Optional<Wired> serving(Bound.Facts part, List<Told> all, Set<Slot> asked) {
    Bound.Facts whole = Bound.Facts.of(pack, lineage, all);
    Wired wired = wired(whole, asked);
    boolean serves =
        !wired.isWide()
            && part.timeline().attempts().size() == whole.timeline().attempts().size()
            && wired.network().holds(Slots.of(pack, part, alwaysHeld));
    return serves ? Optional.of(wired) : Optional.empty();
  }

  /** The slots of the lost functions as the device is now. */
  private Set<Slot> lost(List<Told> facts, Collection<ComplaintId> lostNow) {
    int now = 0;
    for (Told t : facts) {
      if (t.fact() instanceof Fact.StepDone d && pack.steps().get(d.step()).isAttempt()) {
        now++;
      }
    }
    Set<Slot> asked = new LinkedHashSet<>();
    for (ComplaintId c : lostNow) {
      asked.add(new Slot(pack.complaints().get(c).event(), now, 0));
    }
    return asked;
  }

  /** As {@link #belief(List)}, with further slots in the network, to be asked about. */
  BeliefResult believe(
      List<Told> facts, Set<Slot> asked, BiConsumer<Network, Evaluation> supposed) {
    Bound.Facts bound = Bound.Facts.of(pack, lineage, facts);
    Wired wired = wired(bound, asked);
    return wired.isWide()
        ? believePerCase(facts, asked, supposed)
        : believe(facts, bound, wired, supposed);
  }

  private BeliefResult believe(
      List<Told> facts, Bound.Facts bound, Wired wired, BiConsumer<Network, Evaluation> supposed) {
    Evaluation evaluation = wired.circuit().evaluation();
    supposed.accept(wired.network(), evaluation);
    Evidence.Entered entered =
        Evidence.enter(pack, wired.network(), readings, bound.bound(), evaluation);
    return read(facts, bound, wired.network(), entered, Marginals.Route.WHOLE);
  }

  /**
   * As {@link #belief(List)}, by what the facts leave of a network of nothing but what they
   * observe.
   *
   * @param asked further slots in the network
   */
  BeliefResult believePerCase(
      List<Told> facts, Set<Slot> asked, BiConsumer<Network, Evaluation> supposed) {
    Bound.Facts bound = Bound.Facts.of(pack, lineage, facts);
    ForCase forCase = perCase(bound, asked, supposed);
    if (forCase.left() instanceof PerCase.TooWide wide) {
      return new BeliefResult.OverBudget(wide.predicted(), wide.budget());
    }
    return forCase.left() instanceof PerCase.Possible possible
        ? read(facts, bound, forCase.network(), possible.entered(), Marginals.Route.PER_CASE)
        : new BeliefResult.ImpossibleEvidence(clash(facts));
  }

  private record ForCase(Network network, PerCase left) {}

  private ForCase perCase(
      Bound.Facts bound, Set<Slot> asked, BiConsumer<Network, Evaluation> supposed) {
    Set<Slot> slots = Slots.of(pack, bound, List.of());
    slots.addAll(asked);
    Network network = Network.of(pack, lineage, bound.timeline(), slots);
    return new ForCase(
        network, PerCase.of(pack, network, readings, priors, bound.bound(), supposed, budget));
  }

  private BeliefResult read(
      List<Told> facts,
      Bound.Facts bound,
      Network network,
      Evidence.Entered entered,
      Marginals.Route route) {
    double logP = entered.mixture().upward();
    if (logP == Double.NEGATIVE_INFINITY) {
      return new BeliefResult.ImpossibleEvidence(clash(facts));
    }
    entered.mixture().downward();
    return new Belief(this, facts, network, bound, entered, logP, route);
  }

  /**
   * How likely each cause is, estimated from random draws; for cases that are over budget.
   *
   * @param facts facts about a device as taken in, or after attempts
   * @param draws how many draws to make, at least 1
   * @param seed the same seed gives the same estimate
   * @return empty where the facts came up in no draw
   * @throws IllegalArgumentException when readings of several points share the error of an
   *     instrument
   */
  public Optional<Estimate> estimate(List<Told> facts, int draws, long seed) {
    Bound.Facts bound = Bound.Facts.of(pack, lineage, facts);
    Network network = Network.of(pack, lineage, bound.timeline(), Slots.of(pack, bound, List.of()));
    Model model = network.model(priors);
    Evaluation weights = CircuitCompiler.weightsOnly(model).evaluation();
    Evidence.Entered entered = Evidence.enter(pack, network, readings, bound.bound(), weights);
    if (!entered.offsets().isEmpty()) {
      throw new IllegalArgumentException(
          "readings must not share the error of an instrument: " + facts);
    }
    Map<CauseId, Ref.At> open = new LinkedHashMap<>();
    network.causes.forEach(
        (c, ref) -> {
          if (ref instanceof Ref.At at) {
            open.put(c, at);
          }
        });
    Set<Integer> asked = new LinkedHashSet<>();
    open.values().forEach(at -> asked.add(at.variable()));
    Marginals answer =
        Inquiry.of(PerCase.weighed(weights, model), asked)
            .within(0)
            .orDrawing(draws, seed)
            .of(model);
    if (!(answer instanceof Marginals.Estimated estimated)) {
      return Optional.empty();
    }
    Map<CauseId, Estimate.OfCause> causes = new LinkedHashMap<>();
    open.forEach(
        (c, at) ->
            causes.put(
                c,
                new Estimate.OfCause(
                    estimated.p().get(at.variable())[at.state()],
                    estimated.standardErrors().get(at.variable())[at.state()])));
    return Optional.of(new Estimate(estimated.draws(), estimated.effectiveDraws(), causes));
  }

  /** Enters facts, no readings among them, into an evaluation. */
  void enter(Network network, List<Bound> facts, Evaluation evaluation) {
    Evidence.enter(pack, network, readings, facts, evaluation);
  }

  /**
   * The network for the facts: with everything that it always holds, or, where that is too wide, of
   * nothing but what the facts observe.
   */
  private Wired wired(Bound.Facts facts, Set<Slot> asked) {
    Set<Slot> slots = Slots.of(pack, facts, alwaysHeld);
    slots.addAll(asked);
    Wired all = wired(facts.timeline(), slots);
    if (!all.isWide()) {
      return all;
    }
    Set<Slot> observed = Slots.of(pack, facts, List.of());
    observed.addAll(asked);
    return wired(facts.timeline(), observed);
  }

  private Wired wired(Timeline timeline, Set<Slot> slots) {
    Key key = new Key(timeline.attempts().stream().map(s -> s.id()).toList(), slots);
    synchronized (networks) {
      Wired known = networks.get(key);
      if (known == null) {
        Network network = Network.of(pack, lineage, timeline, slots);
        Compilation compilation = network.compile(budget);
        known =
            new Wired(
                network,
                compilation instanceof Circuit c ? network.withPriors(c, priors) : compilation);
        networks.put(key, known);
      }
      return known;
    }
  }

  /** Leaves out one fact after another; what cannot be left out clashes. Attempts stay. */
  private Set<FactId> clash(List<Told> facts) {
    List<Told> left = new ArrayList<>(facts);
    Set<FactId> clash = new LinkedHashSet<>();
    for (Told t : facts) {
      List<Told> fewer = new ArrayList<>(left);
      fewer.remove(t);
      if (t.fact() instanceof Fact.StepDone || isPossible(fewer, facts)) {
        if (!(t.fact() instanceof Fact.StepDone)) {
          clash.add(t.id());
        }
      } else {
        left = fewer;
      }
    }
    return Ordered.copy(clash);
  }

  private boolean isPossible(List<Told> some, List<Told> all) {
    Bound.Facts part = Bound.Facts.of(pack, lineage, some);
    Wired wired = serving(part, all, Set.of()).orElseGet(() -> wired(part, Set.of()));
    if (wired.isWide()) {
      PerCase left = perCase(part, Set.of(), (network, evaluation) -> {}).left();
      return left instanceof PerCase.TooWide
          || left instanceof PerCase.Possible p
              && p.entered().mixture().upward() > Double.NEGATIVE_INFINITY;
    }
    Evaluation evaluation = wired.circuit().evaluation();
    Evidence.Entered entered =
        Evidence.enter(pack, wired.network(), readings, part.bound(), evaluation);
    return entered.mixture().upward() > Double.NEGATIVE_INFINITY;
  }
}
