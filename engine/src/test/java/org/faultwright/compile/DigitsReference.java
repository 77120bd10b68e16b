package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.PackSketch.cause;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.casefile.Fact;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Pack;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A seven-segment digit whose segments are each read wrongly at times: exactly one of ten causes,
 * seven tests. L. Breiman, J. Friedman, R. Olshen, C. Stone, Classification and Regression Trees,
 * 1984, pp. 43-49 (from memory); problem text and Bayes rate of 74 % in the "LED display domain" of
 * the UCI machine learning repository. Errors by enumeration of the 128 patterns.
 */
class DigitsReference {

  /** Top, top left, top right, middle, bottom left, bottom right, bottom, for 0 to 9. */
  private static final List<String> SEGMENTS =
      List.of(
          "1110111", "0010010", "1011101", "1011011", "0111010", "1101011", "1101111", "1010010",
          "1111111", "1111011");

  /** 6 and 9 drawn without their tails. */
  private static final List<String> WITHOUT_TAILS =
      List.of(
          "1110111", "0010010", "1011101", "1011011", "0111010", "1101011", "0101111", "1010010",
          "1111111", "1111010");

  private static Pack digits(List<String> segments, double pWrong) {
    PackSketch sketch = new PackSketch("textbook/digits");
    String[] digits = new String[10];
    for (int d = 0; d < 10; d++) {
      digits[d] = "digit-" + d;
      sketch.prior(digits[d], 0.1);
    }
    sketch.oneOf("digit", true, digits);
    for (int s = 0; s < 7; s++) {
      List<PackSketch.Input> lit = new ArrayList<>();
      for (int d = 0; d < 10; d++) {
        if (segments.get(d).charAt(s) == '1') {
          lit.add(cause(digits[d], 1));
        }
      }
      sketch
          .any("lit-" + s, lit.toArray(PackSketch.Input[]::new))
          .step(
              new StepSketch("segment-" + s).looksAt(new EventId("lit-" + s), 1 - pWrong, pWrong));
    }
    return sketch.build();
  }

  @ParameterizedTest
  @CsvSource({
    "tails,    0,    0",
    "tails,    0.05, 0.13296774",
    "tails,    0.1,  0.25997752",
    "tails,    0.15, 0.37869665",
    "tails,    0.2,  0.48742656",
    "no-tails, 0.1,  0.25362064"
  })
  void errorOfTheBestGuessIsTheBayesRate_whenSegmentsAreReadWrongly(
      String font, double pWrong, double pError) {
    CompiledPack compiled =
        (CompiledPack)
            CompiledPack.compile(digits(font.equals("tails") ? SEGMENTS : WITHOUT_TAILS, pWrong));
    double pRight = 0;
    double pAll = 0;
    for (int pattern = 0; pattern < 128; pattern++) {
      List<Fact> facts = new ArrayList<>();
      for (int s = 0; s < 7; s++) {
        String outcome = (pattern >> s & 1) == 1 ? "positive" : "negative";
        facts.add(Facts.outcome("segment-" + s, outcome));
      }
      if (compiled.belief(Facts.told(facts)) instanceof Belief belief) {
        double pPattern = Math.exp(belief.logPEvidence());
        List<Double> posterior = List.copyOf(belief.causes().values());
        assertThat(posterior.stream().mapToDouble(p -> p).sum()).isEqualTo(1, within(1e-12));
        pRight += pPattern * posterior.stream().mapToDouble(p -> p).max().orElseThrow();
        pAll += pPattern;
      }
    }
    assertThat(pAll).isEqualTo(1, within(1e-12));
    // 1e-8: half of the last printed digit
    assertThat(1 - pRight).isEqualTo(pError, within(1e-8));
  }
}
