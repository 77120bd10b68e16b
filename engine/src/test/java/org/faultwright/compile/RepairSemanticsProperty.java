package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.Facts.done;
import static org.faultwright.oracle.Facts.outcome;
import static org.faultwright.oracle.Facts.reported;
import static org.faultwright.oracle.Facts.said;
import static org.faultwright.oracle.PackSketch.cause;
import static org.faultwright.oracle.PackSketch.event;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.oracle.WorldEnumerator;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;

/** What repairs show and change, held to closed forms and to what must be the same thing. */
class RepairSemanticsProperty {

  private static final Offset<Double> EXACT = within(1e-12);
  private static final CauseId A = new CauseId("a");
  private static final CauseId B = new CauseId("b");
  private static final ComplaintId LOST = new ComplaintId("lost");
  private static final StepId PROOF = new StepId("proof");
  private static final OutcomeId PASSED = new OutcomeId("passed");

  @Provide
  Arbitrary<Double> p() {
    return Arbitraries.integers().between(3, 97).map(i -> i / 100.0);
  }

  private static PackSketch pack() {
    return new PackSketch("test-family/repairs");
  }

  private static Belief belief(Pack pack, Fact... facts) {
    return (Belief) ((CompiledPack) CompiledPack.compile(pack)).belief(Facts.told(facts));
  }

  /**
   * A repair that can do nothing passes its function test as often as a fresh look would: the
   * strength of the cause is drawn once per case and does not turn over. Closed form.
   */
  @Property(tries = 60)
  void uselessRepairPasses_asOftenAsAFreshLook(
      @ForAll("p") double prior,
      @ForAll("p") double strength,
      @ForAll("p") double catches,
      @ForAll("p") double criesWolf) {
    Pack pack =
        pack()
            .prior("a", prior)
            .any("e", cause("a", strength))
            .complaint("lost", "e")
            .step(new StepSketch("wipe").changes("a", 0, 0))
            .step(new StepSketch("proof").proves("lost", "e", catches, criesWolf))
            .build();
    double lost = prior * strength;
    double lostGivenFailed = lost * catches / (lost * catches + (1 - lost) * criesWolf);
    double pPass = lostGivenFailed * (1 - catches) + (1 - lostGivenFailed) * (1 - criesWolf);
    Belief then = belief(pack, outcome("proof", "failed"), done("wipe"));
    assertThat(then.outcomes(PROOF).get(PASSED)).isEqualTo(pPass, EXACT);
    // with a sure test it never passes, however often it is tried
    Belief sure =
        belief(
            pack()
                .prior("a", prior)
                .any("e", cause("a", strength))
                .complaint("lost", "e")
                .step(new StepSketch("wipe").changes("a", 0, 0))
                .step(new StepSketch("proof").proves("lost", "e", 1, 0))
                .build(),
            outcome("proof", "failed"),
            done("wipe"),
            done("wipe"));
    assertThat(sure.outcomes(PROOF).get(PASSED)).isZero();
  }

  /**
   * Closed form, and enumeration: hidden and passed, it comes back as often as it is still there.
   */
  @Property(tries = 60)
  void hiddenCauseComesBack_asOftenAsItIsStillThere(
      @ForAll("p") double prior, @ForAll("p") double cures, @ForAll("p") double hides) {
    Pack pack =
        pack()
            .prior("a", prior)
            .any("e", cause("a", 1))
            .complaint("lost", "e")
            .step(new StepSketch("reseat").changes("a", cures, hides))
            .step(new StepSketch("proof").proves("lost", "e", 1, 0))
            .build();
    Fact[] facts = {done("reseat"), outcome("proof", "passed")};
    double there = prior * (1 - cures);
    double expected = there * hides / (1 - there * (1 - hides));
    Belief belief = belief(pack, facts);
    assertThat(belief.pLost(LOST)).isEqualTo(0, EXACT);
    assertThat(belief.pComesBack(LOST)).isEqualTo(expected, EXACT);
    assertThat(WorldEnumerator.of(pack, Facts.told(facts)).pComesBack(LOST))
        .isEqualTo(expected, EXACT);
  }

  /** What a board cannot have is absent there, whatever is done; the others stay as they were. */
  @Property(tries = 30)
  void causeIsAbsent_onABoardThatCannotHaveIt(
      @ForAll("p") double a, @ForAll("p") double b, @ForAll("p") double strength) {
    Pack pack =
        pack()
            .share("a", "lost", 0.25)
            .share("b", "lost", 0.75)
            .follows("a", "b", 0.3 * strength)
            .onlyOn("a", "rev-a")
            .any("e", cause("a", 1), cause("b", 1))
            .complaint("lost", "e", 0, 0.04)
            .step(new StepSketch("pry").mayCause("a", a))
            .step(new StepSketch("look").looksAt(A, Math.max(b, 0.5), 0.1))
            .build();
    PackCompilation compiled = CompiledPack.compile(pack);
    Assume.that(compiled instanceof CompiledPack); // some shares cannot be attained
    CompiledPack family = (CompiledPack) compiled;
    CompiledPack revB = family.onBoard(Optional.of(new BoardId("rev-b")));
    assertThat(family.onBoard(Optional.of(new BoardId("rev-a")))).isSameAs(family);
    assertThat(family.onBoard(Optional.empty())).isSameAs(family);
    Belief lost = (Belief) revB.belief(Facts.told(reported("lost"), done("pry")));
    assertThat(lost.p(A)).isZero();
    assertThat(lost.p(B)).isEqualTo(1, EXACT);
    Belief nothing = (Belief) revB.belief(List.of());
    assertThat(nothing.p(B)).isEqualTo(family.priors().get(B), EXACT);
    assertThat(nothing.outcomes(new StepId("look")).get(OutcomeId.POSITIVE)).isEqualTo(0.1, EXACT);
  }

  /** Where one fault explains the loss, a good new part tells what a look at the old one would. */
  @Property(tries = 60)
  void swapWithACertainDonor_tellsWhatALookAtThePartTells(
      @ForAll("p") double a, @ForAll("p") double b, @ForAll("p") double liquid) {
    PackSketch sketch =
        pack()
            .history("liquid", liquid, 0.9, 0.2)
            .prior("a", 0.4 * a)
            .prior("b", 0.4 * b)
            .after("a", "liquid", 6)
            .oneOf("fault", false, "a", "b")
            .any("e", cause("a", 1), cause("b", 1))
            .complaint("lost", "e")
            .part("flex", Set.of("a"))
            .step(new StepSketch("swap").swaps("flex", 1))
            .step(new StepSketch("look").looksAt(A, 1, 0))
            .step(new StepSketch("proof").proves("lost", "e", 1, 0));
    Pack pack = sketch.build();
    HistoryId history = new HistoryId("liquid");
    for (boolean bad : List.of(true, false)) {
      Fact[] looked = {
        reported("lost"), said("liquid", true), outcome("look", bad ? "positive" : "negative")
      };
      Fact[] swapped = {
        reported("lost"),
        said("liquid", true),
        done("swap"),
        outcome("proof", bad ? "passed" : "failed")
      };
      Belief seen = belief(pack, looked);
      Belief tried = belief(pack, swapped);
      assertThat(tried.logPEvidence()).isEqualTo(seen.logPEvidence(), EXACT);
      assertThat(tried.p(history)).isEqualTo(seen.p(history), EXACT);
      assertThat(tried.p(B)).isEqualTo(seen.p(B), EXACT);
    }
  }

  /** A cause that surely follows another and has no likelihood of its own is an event of it. */
  @Property(tries = 60)
  void causeThatSurelyFollows_isAnEventOfItsRoots(
      @ForAll("p") double a,
      @ForAll("p") double b,
      @ForAll("p") double strength,
      @ForAll("p") double catches,
      @ForAll("p") double criesWolf) {
    StepSketch proof = new StepSketch("proof").proves("lost", "e", catches, criesWolf);
    Pack following =
        pack()
            .prior("a", a)
            .prior("b", b)
            .onlyCaused("c")
            .follows("c", "a", 1)
            .follows("c", "b", strength)
            .any("e", cause("c", 0.8))
            .complaint("lost", "e", 0.1, 0.05)
            .step(proof)
            .build();
    Pack events =
        pack()
            .prior("a", a)
            .prior("b", b)
            .any("c-event", cause("a", 1), cause("b", strength))
            .any("e", event("c-event", 0.8))
            .complaint("lost", "e", 0.1, 0.05)
            .step(proof)
            .build();
    Fact[] facts = {reported("lost"), outcome("proof", "passed")};
    Belief one = belief(following, facts);
    Belief other = belief(events, facts);
    assertThat(one.logPEvidence()).isEqualTo(other.logPEvidence(), EXACT);
    assertThat(one.p(A)).isEqualTo(other.p(A), EXACT);
    assertThat(one.p(B)).isEqualTo(other.p(B), EXACT);
    assertThat(one.pLost(LOST)).isEqualTo(other.pLost(LOST), EXACT);
  }
}
