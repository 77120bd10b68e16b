package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.PackSketch.cause;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.RandomPacks;
import org.faultwright.oracle.ShareSolver;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;

/** The priors that are solved from shares. Oracles: enumeration, closed forms. */
class SharesProperty {

  /** Shares and rate are met to 1e-12; conditioning and summing may cost three digits. */
  private static final Offset<Double> SOLVED = within(1e-9);

  /** A cause of a plain noisy any: its prior and its strength. */
  record Plain(double prior, double strength) {}

  @Provide
  Arbitrary<Pack> packsWithShares() {
    Set<PackFeature> features = EnumSet.allOf(PackFeature.class);
    features.remove(PackFeature.EXTREMES);
    return RandomPacks.packsWithShares(features);
  }

  @Provide
  Arbitrary<List<Plain>> plainCauses() {
    Arbitrary<Double> prior = Arbitraries.doubles().between(0.01, 0.4);
    Arbitrary<Double> strength = Arbitraries.doubles().between(0.3, 1);
    return Combinators.combine(prior, strength).as(Plain::new).list().ofMinSize(1).ofMaxSize(12);
  }

  @Property(tries = 80)
  void sharesAreReproduced_whenTheComplaintIsAllThatIsKnown(@ForAll("packsWithShares") Pack pack) {
    Optional<Map<CauseId, Double>> byEnumeration = ShareSolver.solve(pack);
    PackCompilation compilation = CompiledPack.compile(pack);
    if (byEnumeration.isEmpty()) {
      assertThat(compilation).isInstanceOf(PackCompilation.SharesUnattainable.class);
      return;
    }
    assertThat(compilation).isInstanceOf(CompiledPack.class);
    CompiledPack compiled = (CompiledPack) compilation;
    byEnumeration
        .get()
        .forEach((c, p) -> assertThat(compiled.priors().get(c)).as("%s", c).isEqualTo(p, SOLVED));
    Belief belief = (Belief) compiled.belief(Facts.told(Facts.reported("complaint-a")));
    double sum = belief.causes().values().stream().mapToDouble(p -> p).sum();
    for (Cause cause : pack.causes().values()) {
      double p = belief.p(cause.id());
      if (cause.likelihood() instanceof Cause.Likelihood.Share share) {
        assertThat(p / sum).as("%s", cause.id()).isEqualTo(share.share().p(), SOLVED);
      } else {
        assertThat(p).as("bad new part, before any swap").isZero();
      }
    }
    if (pack.groups().values().stream().noneMatch(OneOf::certain)) {
      Complaint complaint = pack.complaints().values().iterator().next();
      assertThat(Math.exp(belief.logPEvidence())).isEqualTo(complaint.rate().p(), SOLVED);
    }
  }

  /**
   * Closed form of {@code engine/docs/semantics.md}: choose priors p and strengths w; then {@code
   * pi = 1 - prod (1 - p_i w_i)} and {@code t s_i = p_i [1 - (1-w_i)(1-pi)/(1 - p_i w_i)] / pi},
   * and the solver must find p again.
   */
  @Property(tries = 100)
  void priorsAreFoundAgain_whenTheEventIsAPlainNoisyAny(@ForAll("plainCauses") List<Plain> causes) {
    double pNotLost = 1;
    for (Plain c : causes) {
      pNotLost *= 1 - c.prior() * c.strength();
    }
    double pLost = 1 - pNotLost;
    List<Double> present = new ArrayList<>();
    for (Plain c : causes) {
      present.add(
          c.prior() * (1 - (1 - c.strength()) * pNotLost / (1 - c.prior() * c.strength())) / pLost);
    }
    double t = present.stream().mapToDouble(p -> p).sum();
    Pack pack = plain(causes, present.stream().map(p -> p / t).toList(), pLost).build();
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(pack);
    Belief belief = (Belief) compiled.belief(Facts.told(Facts.reported("complaint")));
    for (int i = 0; i < causes.size(); i++) {
      CauseId id = new CauseId("cause-" + i);
      assertThat(compiled.priors().get(id)).isEqualTo(causes.get(i).prior(), SOLVED);
      assertThat(belief.p(id)).isEqualTo(present.get(i), SOLVED);
    }
  }

  /** Closed form of {@code engine/docs/semantics.md}: {@code p_i = pi s_i / w_i}. */
  @Property(tries = 50)
  void priorsAreSharesOverStrengths_whenAllCausesAreInOneGroup(
      @ForAll("plainCauses") List<Plain> causes) {
    double sum = causes.stream().mapToDouble(Plain::prior).sum();
    List<Double> shares = causes.stream().map(c -> c.prior() / sum).toList();
    double rate = 0.1;
    PackSketch sketch = plain(causes, shares, rate);
    String[] members = new String[causes.size()];
    for (int i = 0; i < members.length; i++) {
      members[i] = "cause-" + i;
    }
    Pack pack = sketch.oneOf("group", false, members).build();
    Map<CauseId, Double> priors =
        new LinkedHashMap<>(((CompiledPack) CompiledPack.compile(pack)).priors());
    for (int i = 0; i < members.length; i++) {
      assertThat(priors.get(new CauseId(members[i])))
          .isEqualTo(rate * shares.get(i) / causes.get(i).strength(), SOLVED);
    }
  }

  private static PackSketch plain(List<Plain> causes, List<Double> shares, double rate) {
    PackSketch sketch = new PackSketch("test-family/shares");
    PackSketch.Input[] inputs = new PackSketch.Input[causes.size()];
    for (int i = 0; i < inputs.length; i++) {
      sketch.share("cause-" + i, "complaint", shares.get(i));
      inputs[i] = cause("cause-" + i, causes.get(i).strength());
    }
    return sketch.any("lost", inputs).complaint("complaint", "lost", 0, rate);
  }
}
