package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Reason;

/** Whether two answers say the same, whatever the numbers of the facts are. */
final class Likeness {

  /** The same sums in another order. */
  static final Offset<Double> EXACT = within(1e-10);

  private Likeness() {}

  /** An advice without the numbers of facts. */
  record Said(
      Advice.Kind kind, Optional<StepId> step, List<Reason.Why> whys, Object turns, Object asks) {}

  static Said said(Advice advice) {
    return new Said(
        advice.kind(),
        advice.step(),
        advice.reasons().stream().map(Reason::why).toList(),
        advice.turns(),
        advice.consents());
  }

  /** Asserts that the second answer says what the first does. */
  static void same(Answer one, Answer other) {
    sameOutlook(one, other, c -> c);
    assertThat(said(other.advice().primary())).isEqualTo(said(one.advice().primary()));
    assertThat(other.advice().others().stream().map(Likeness::said))
        .containsExactlyElementsOf(one.advice().others().stream().map(Likeness::said).toList());
    assertThat(about(other)).containsExactlyInAnyOrderElementsOf(about(one));
  }

  /** Asserts that the second answer ranks as the first does, with causes under other names. */
  static void sameOutlook(Answer one, Answer other, UnaryOperator<CauseId> named) {
    assertThat(other.outlook()).hasSameClassAs(one.outlook());
    if (one.outlook() instanceof Posterior a && other.outlook() instanceof Posterior b) {
      assertThat(b.ranking()).hasSameSizeAs(a.ranking());
      assertThat(b.logPEvidence()).isEqualTo(a.logPEvidence(), EXACT);
      for (Posterior.Ranked r : a.ranking()) {
        assertThat(b.p(named.apply(r.cause()))).as("%s", r.cause()).isEqualTo(r.p(), EXACT);
      }
    }
  }

  private static List<Fact> about(Answer answer) {
    return facts(answer, answer.advice().primary().about());
  }

  static List<Fact> facts(Answer answer, Collection<FactId> ids) {
    return answer.caseFile().facts().stream()
        .filter(t -> ids.contains(t.id()))
        .map(Told::fact)
        .toList();
  }
}
