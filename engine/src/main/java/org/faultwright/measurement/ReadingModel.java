package org.faultwright.measurement;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.measurement.ReadingValue.Measured;

/**
 * What the readings of one point say about its state: normal, or one of the states off normal.
 *
 * <p>A reading is y = x + b + e: x is drawn from the density of the true state, b is the
 * instrument's systematic error and e its random error, both normal. Over-range is a point mass of
 * x. See {@code semantics.md}, Reading.
 *
 * <p><b>Floor.</b> In each state, with probability {@value #P_MISREAD} a reading is not one of this
 * point at all. Then it is over-range for lack of contact (half), a reading such as any one of the
 * states gives (a quarter), or just anything (a quarter). So one odd reading never makes anything
 * certain: between two states of n it moves the odds by at most 4 n / {@value #P_MISREAD} = 800 n
 * to one, and an over-range by at most 400 to one.
 *
 * <p>State 0 is normal; the others follow in the order given. Immutable and thread-safe. A
 * likelihood costs some ten error functions per state.
 */
public final class ReadingModel {

  /**
   * P(a reading is not one of this point at all). One in two hundred; common practice, no source.
   */
  static final double P_MISREAD = 0.005;

  /** P(a state that is seen without a number is called by another name). Common practice. */
  static final double P_MISNAMED = 0.02;

  /** P(no contact, thus over-range | misread). */
  private static final double P_NO_CONTACT = 0.5;

  /** P(reads as one of the states does, each as often | misread). */
  private static final double P_AS_ANOTHER_STATE = 0.25;

  /** P(just anything | misread). */
  private static final double P_ANYTHING = 0.25;

  /** Cells of the grid on which borders between classes are sought are halved this often. */
  private static final int HALVINGS = 60;

  static final String NORMAL = "normal";

  /** The states whose names say where readings lie, as far as a reference allows it. */
  public static final Set<String> COMMON_STATES = Set.of("open", "short", "low", "high");

  private final Reference normal;
  private final Dimension dimension;
  private final TypicalDensities typical;
  private final List<String> names;
  private final List<StateDensity> states;

  /** Which states are only ever named: a number speaks neither for nor against them. */
  private final boolean[] onlyNamed;

  private final double[] pOver;

  /** The largest value that is shown, in SI units; infinite: not known. */
  private final double largest;

  /**
   * A state off normal.
   *
   * @param name {@code open}, {@code short}, {@code low}, {@code high}, or a name of the pack's own
   * @param lies where the true value lies in this state; empty: as the name says, see {@link
   *     #knowsRange}, or, for a name of the pack's own, nowhere in particular: such a state is
   *     seen, not measured
   */
  public record StateRange(String name, Optional<Reference> lies) {}

  private ReadingModel(
      TypicalDensities typical,
      Reference normal,
      List<String> names,
      List<StateDensity> states,
      boolean[] onlyNamed,
      double largest,
      double u) {
    this.typical = typical;
    this.normal = normal;
    this.dimension = normal.dimension();
    this.names = names;
    this.states = states;
    this.onlyNamed = onlyNamed;
    this.largest = largest;
    this.pOver =
        withMisread(
            states.stream().mapToDouble(s -> s.pOver() + pBeyond(s, u)).toArray(),
            1,
            Double.isInfinite(largest) ? 0 : 1 - pAnything(largest) + pAnything(-largest));
  }

  private double pBeyond(StateDensity s, double u) {
    return Double.isInfinite(largest)
        ? 0
        : Math.max(0, 1 - s.pOver() - s.cdf(largest, u) + s.cdf(-largest, u));
  }

  /**
   * The same point, read with an instrument that shows no more than so much, either side of 0: what
   * lies beyond reads over-range.
   *
   * @param most in SI units, above 0; infinite: not known
   * @param u standard uncertainty of a reading there, in SI units, from 0
   */
  public ReadingModel showingUpTo(double most, double u) {
    if (!(most > 0)) {
      throw new IllegalArgumentException("most must be above 0: " + most);
    }
    checkUncertainty("u", u);
    return new ReadingModel(typical, normal, names, states, onlyNamed, most, u);
  }

  /**
   * The model of a point.
   *
   * @throws IllegalArgumentException when open, short, low or high does not state its range and
   *     {@link #knowsRange} does not know it either, when two states have one name, or when
   *     dimensions differ
   */
  public static ReadingModel of(Reference normal, List<StateRange> offNormal) {
    TypicalDensities typical = new TypicalDensities(normal);
    List<StateDensity> states = new ArrayList<>();
    states.add(typical.stated(normal));
    boolean[] onlyNamed = new boolean[offNormal.size() + 1];
    List<String> names = new ArrayList<>(List.of(NORMAL));
    for (StateRange state : offNormal) {
      if (names.contains(state.name())) {
        throw new IllegalArgumentException("state must be named once: " + state.name());
      }
      names.add(state.name());
      if (state.lies().isPresent()) {
        expect(normal.dimension(), state.lies().get().dimension(), state.name());
        states.add(typical.stated(state.lies().get()));
      } else if (typical.knows(state.name())) {
        states.add(typical.named(state.name()));
      } else if (COMMON_STATES.contains(state.name())) {
        throw new IllegalArgumentException(
            "state must say where readings lie with this reference: " + state.name());
      } else {
        onlyNamed[states.size()] = true;
        states.add(states.get(0));
      }
    }
    return new ReadingModel(
        typical,
        normal,
        List.copyOf(names),
        List.copyOf(states),
        onlyNamed,
        Double.POSITIVE_INFINITY,
        0);
  }

  /**
   * Whether the name alone says where readings lie. {@code open} and {@code short} do for voltages,
   * resistances, currents and capacitances, {@code low} where the reference has a lower limit or is
   * over-range, {@code high} where it has an upper limit.
   */
  public static boolean knowsRange(String state, Reference normal) {
    return new TypicalDensities(normal).knows(state);
  }

  /** Number of states, normal included. */
  public int states() {
    return states.size();
  }

  /**
   * P(readings | state) for each state, up to a common factor; each is above 0.
   *
   * <p>The measured values enter by their mean m of n: {@code INT p(x|s) N(m; x, uSystematic^2 +
   * uRandom^2 / n) dx}. Where some readings of the point are over-range and others are not, one
   * kind was misread, with probability {@value #P_MISREAD} for each such reading.
   *
   * @param readings of this point, in any order, at least one
   * @param uSystematic standard uncertainty common to the readings, in SI units, from 0
   * @param uRandom standard uncertainty of each reading by itself, in SI units, from 0
   * @throws IllegalArgumentException when there is no reading, a reading is of another dimension or
   *     an uncertainty is negative or not finite
   */
  public double[] likelihood(List<ReadingValue> readings, double uSystematic, double uRandom) {
    checkUncertainty("uSystematic", uSystematic);
    checkUncertainty("uRandom", uRandom);
    Taken taken = taken(readings);
    return likelihood(taken, 0, Math.hypot(uSystematic, taken.ofMean(uRandom)));
  }

  /**
   * Readings of one point, as far as they matter.
   *
   * @param mean of those that show a value, in SI units; 0 where none does
   * @param measured how many show a value
   * @param over how many are over-range
   * @param named the states that were seen without a number, by their places, ascending
   */
  public record Taken(double mean, int measured, int over, List<Integer> named) {

    /** Checks that there is a reading. */
    public Taken {
      named = List.copyOf(named);
      if (measured < 0 || over < 0 || measured + over + named.size() == 0) {
        throw new IllegalArgumentException("readings must not be empty");
      }
    }

    /** Readings with numbers only. */
    public Taken(double mean, int measured, int over) {
      this(mean, measured, over, List.of());
    }

    /** The same readings with another mean. */
    public Taken withMean(double other) {
      return new Taken(other, measured, over, named);
    }

    /** Standard uncertainty of the mean by chance, for a reading's own. */
    public double ofMean(double uRandom) {
      return uRandom / Math.sqrt(Math.max(1, measured));
    }
  }

  /**
   * Sums up readings of this point.
   *
   * @throws IllegalArgumentException when there is none, or one of another dimension
   */
  public Taken taken(List<ReadingValue> readings) {
    double[] values = readings.stream().filter(this::isMeasured).mapToDouble(this::si).toArray();
    Arrays.sort(values); // the same sum in whatever order they come
    double mean = values.length == 0 ? 0 : Arrays.stream(values).sum() / values.length;
    int over = (int) readings.stream().filter(ReadingValue.OverRange.class::isInstance).count();
    List<Integer> named =
        readings.stream()
            .filter(ReadingValue.Named.class::isInstance)
            .map(r -> place(((ReadingValue.Named) r).state()))
            .distinct()
            .sorted()
            .toList();
    return new Taken(mean, values.length, over, named);
  }

  /**
   * As {@link #likelihood(List, double, double)}, where the instrument's systematic error is known.
   *
   * @param offset the systematic error in SI units: the instrument shows so much too much
   * @param noise standard uncertainty that is left to the mean, in SI units, from 0
   */
  public double[] likelihood(Taken taken, double offset, double noise) {
    return withNamed(taken, ofNumbers(taken, offset, noise, 0));
  }

  /**
   * Upper bounds of {@link #likelihood(Taken, double, double)} for all offsets from one on.
   *
   * @param side 1: from there upwards; -1: downwards
   */
  public double[] mostFrom(Taken taken, double offset, int side, double noise) {
    return withNamed(taken, ofNumbers(taken, offset, noise, side));
  }

  private static double[] withNamed(Taken taken, double[] likelihood) {
    for (int t : taken.named()) {
      for (int s = 0; s < likelihood.length && likelihood.length > 1; s++) {
        likelihood[s] *= s == t ? 1 - P_MISNAMED : P_MISNAMED / (likelihood.length - 1);
      }
    }
    return likelihood;
  }

  /** At an offset (side 0), or at most from there on. */
  private double[] ofNumbers(Taken taken, double offset, double noise, int side) {
    if (taken.measured() + taken.over() == 0) {
      double[] even = new double[states.size()];
      Arrays.fill(even, 1);
      return even;
    }
    if (taken.over() == 0) {
      return densities(taken.mean(), offset, noise, side);
    }
    if (taken.measured() == 0) {
      return pOver.clone();
    }
    // Powers of P_MISREAD common to both terms are left out: they would only underflow.
    double pValuesMisread = Math.pow(P_MISREAD, Math.max(0, taken.measured() - taken.over()));
    double pOverMisread = Math.pow(P_MISREAD, Math.max(0, taken.over() - taken.measured()));
    double[] likelihood = densities(taken.mean(), offset, noise, side);
    double misreadValue = Arrays.stream(likelihood).average().orElseThrow();
    for (int s = 0; s < likelihood.length; s++) {
      likelihood[s] =
          pValuesMisread * pOver[s] * misreadValue + pOverMisread * P_NO_CONTACT * likelihood[s];
    }
    return likelihood;
  }

  /**
   * An upper bound of {@link #likelihood(Taken, double, double)} over all states and offsets: how
   * much an offset can gain at most.
   */
  public double mostLikelihood(Taken taken, double noise) {
    if (taken.measured() == 0) {
      return 1;
    }
    double anything = 1 / (Math.PI * typical.size());
    return states.stream().mapToDouble(s -> s.peak(noise)).max().orElseThrow() + anything;
  }

  /** A lower bound of the likelihood of one measured value, over all states and offsets. */
  double least(double y) {
    return P_MISREAD * P_ANYTHING * anything(y);
  }

  /**
   * The smallest standard deviation over which the likelihood changes as the offset moves by up to
   * {@code reach}, in SI units; infinite where it does not change.
   */
  public double finest(Taken taken, double reach, double noise) {
    if (taken.measured() == 0) {
      return Double.POSITIVE_INFINITY;
    }
    return states.stream()
        .mapToDouble(s -> s.finest(taken.mean(), reach, noise))
        .min()
        .orElseThrow();
  }

  /** The place of a state, 0 for normal. */
  private int place(String state) {
    int place = names.indexOf(state);
    if (place < 0) {
      throw new IllegalArgumentException("state must be one of " + names + ": " + state);
    }
    return place;
  }

  /**
   * The state with the largest likelihood of the reading; the first of equals.
   *
   * @param u standard uncertainty of the reading in SI units, from 0
   */
  public int classify(ReadingValue value, double u) {
    return largest(likelihood(List.of(value), 0, u));
  }

  /**
   * Probability that the true value keeps to the reference, from the reading alone.
   *
   * @param u standard uncertainty of the reading in SI units, from 0
   * @see Conformance#of
   */
  public double pConforms(ReadingValue value, double u) {
    return Conformance.probability(normal, value, u);
  }

  /**
   * Whether the reading is too close to a limit to say on which side the true value lies: {@link
   * #pConforms} between 5 % and 95 %.
   */
  public boolean nearLimit(ReadingValue value, double u) {
    return Conformance.of(normal, value, new GuardBand(0, u)).nearLimit();
  }

  /**
   * P(classified as column | true state is row) for one reading. Rows sum to 1.
   *
   * <p>Borders between classes are sought on a grid that follows the densities and refined by
   * halving, then each stretch is integrated in closed form. A class that fills less than half a
   * standard deviation between two grid points may be missed.
   *
   * @param u standard uncertainty of a reading in SI units, from 0
   */
  public double[][] confusion(double u) {
    checkUncertainty("u", u);
    double[][] confusion = new double[states.size()][states.size()];
    int whenOver = classify(new ReadingValue.OverRange(dimension), u);
    double[] grid = grid(u);
    int[] classes = new int[grid.length];
    for (int i = 0; i < grid.length; i++) {
      classes[i] = classOf(grid[i], u);
    }
    double[] below =
        Double.isInfinite(largest) ? new double[states.size()] : cumulatives(-largest, u);
    for (int i = 0; i < grid.length; i++) {
      boolean last = i == grid.length - 1;
      if (!last && classes[i] == classes[i + 1]) {
        continue;
      }
      double[] upTo = last ? upToTheLargest(u) : cumulatives(border(grid[i], grid[i + 1], u), u);
      for (int s = 0; s < below.length; s++) {
        confusion[s][classes[i]] += Math.max(0, upTo[s] - below[s]);
      }
      below = upTo;
    }
    for (int s = 0; s < below.length; s++) {
      confusion[s][whenOver] += pOver[s];
    }
    return confusion;
  }

  private double[] upToTheLargest(double u) {
    return Double.isInfinite(largest)
        ? Arrays.stream(pOver).map(p -> 1 - p).toArray()
        : cumulatives(largest, u);
  }

  private double[] grid(double u) {
    List<Double> marks = new ArrayList<>();
    states.forEach(s -> s.marks(u, marks));
    if (marks.isEmpty()) {
      marks.add(0.0);
    }
    if (Double.isFinite(largest)) {
      marks.removeIf(mark -> Math.abs(mark) > largest);
      marks.addAll(List.of(-largest, largest));
    }
    return marks.stream().mapToDouble(Double::doubleValue).sorted().distinct().toArray();
  }

  private double border(double from, double to, double u) {
    int first = classOf(from, u);
    double a = from;
    double b = to;
    for (int i = 0; i < HALVINGS; i++) {
      double middle = (a + b) / 2;
      if (classOf(middle, u) == first) {
        a = middle;
      } else {
        b = middle;
      }
    }
    return (a + b) / 2;
  }

  private int classOf(double y, double u) {
    return largest(densities(y, 0, u, 0));
  }

  private static int largest(double[] values) {
    int best = 0;
    for (int s = 1; s < values.length; s++) {
      if (values[s] > values[best]) {
        best = s;
      }
    }
    return best;
  }

  /** Density of a reading at y in each state, with a known systematic error. */
  private double[] densities(double y, double offset, double noise, int side) {
    double[] own = new double[states.size()];
    for (int s = 0; s < own.length; s++) {
      StateDensity state = states.get(s);
      own[s] = side == 0 ? state.pdf(y - offset, noise) : state.most(y - offset, side, noise);
    }
    return withMisread(own, 0, anything(y));
  }

  /** Density of just anything at y: a Cauchy about normal, as wide as its value is large. */
  private double anything(double y) {
    double z = (y - typical.centre()) / typical.size();
    return 1 / (Math.PI * typical.size() * (1 + z * z));
  }

  /** P(measured, and at most y) in each state. */
  private double[] cumulatives(double y, double noise) {
    return withMisread(
        states.stream().mapToDouble(s -> s.cdf(y, noise)).toArray(), 0, pAnything(y));
  }

  private double pAnything(double y) {
    return 0.5 + Math.atan((y - typical.centre()) / typical.size()) / Math.PI;
  }

  /** Mixes in the misread. */
  private double[] withMisread(double[] own, double noContact, double anything) {
    double asAnother = 0;
    int numbered = 0;
    for (int s = 0; s < own.length; s++) {
      asAnother += onlyNamed[s] ? 0 : own[s];
      numbered += onlyNamed[s] ? 0 : 1;
    }
    asAnother /= numbered;
    for (int s = 0; s < own.length; s++) {
      own[s] = onlyNamed[s] ? asAnother : own[s];
    }
    double misread =
        P_NO_CONTACT * noContact + P_AS_ANOTHER_STATE * asAnother + P_ANYTHING * anything;
    for (int s = 0; s < own.length; s++) {
      own[s] = (1 - P_MISREAD) * own[s] + P_MISREAD * misread;
    }
    return own;
  }

  private boolean isMeasured(ReadingValue value) {
    expect(dimension, value.kind(), value.toString());
    return value instanceof Measured;
  }

  private double si(ReadingValue value) {
    return ((Measured) value).quantity().si();
  }

  static void expect(Dimension expected, Dimension found, String shown) {
    if (expected != found) {
      throw new IllegalArgumentException(
          "expected a %s, not a %s: %s".formatted(expected.word(), found.word(), shown));
    }
  }

  static void checkUncertainty(String name, double u) {
    if (!(u >= 0) || Double.isInfinite(u)) {
      throw new IllegalArgumentException(name + " must be finite and not negative: " + u);
    }
  }
}
