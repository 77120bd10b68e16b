package org.faultwright.compile;

import java.util.Locale;
import java.util.Optional;
import org.faultwright.pack.Pack;
import org.faultwright.pack.check.Positions;
import org.faultwright.problem.Problem;

/** Why a pack that reads well cannot be diagnosed with, in words for its author. */
public final class CompilationProblems {

  /** Id of the problem that no priors give the stated shares. */
  public static final String SHARES_UNATTAINABLE = "shares-unattainable";

  /** Id of the problem that the pack is too wide for exact answers. */
  public static final String PACK_TOO_WIDE = "pack-too-wide";

  private CompilationProblems() {}

  /**
   * The problem; empty when the pack can be used.
   *
   * @param result what came of compiling the pack
   * @param at where the statements of the pack stand
   */
  public static Optional<Problem> of(PackCompilation result, Pack pack, Positions at) {
    if (result instanceof PackCompilation.SharesUnattainable s) {
      return Optional.of(
          Problem.error(
              SHARES_UNATTAINABLE,
              at.of("complaints/" + s.complaint() + "/rate"),
              "no probabilities of the causes give the shares that they have in complaint '"
                  + s.complaint()
                  + "', at its rate of "
                  + rate(pack.complaints().get(s.complaint()).rate().p()),
              "look at the rate, at the shares, and at how strongly each cause brings it about"));
    } else if (result instanceof PackCompilation.TooWide wide) {
      return Optional.of(
          Problem.error(
              PACK_TOO_WIDE,
              at.of("pack"),
              String.format(
                  Locale.ROOT,
                  "an exact answer would take %.1e table entries, and %.1e are allowed",
                  wide.predicted(),
                  wide.budget()),
              "let steps and events look at fewer causes at once, or split the pack into two"));
    }
    return Optional.empty();
  }

  private static String rate(double p) {
    return new java.math.BigDecimal(String.valueOf(p))
            .movePointRight(2)
            .stripTrailingZeros()
            .toPlainString()
        + " %";
  }
}
