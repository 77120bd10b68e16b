package org.faultwright.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.faultwright.inference.DiscreteNetwork;
import org.faultwright.pack.CauseId;
import org.junit.jupiter.api.Test;
import weka.classifiers.bayes.net.MarginCalculator;

/** The comparison is one of the same problem, and the peer is used as it wants to be used. */
class PeerReference {

  private static final double[] NEVER = {1, 0};
  private static final double[] ALWAYS = {0, 1};

  @Test
  void bothGiveTheSamePosterior_whenAskedWhatIsMeasured() throws Exception {
    Question question = new Question();
    Map<CauseId, Double> ours = question.ours();
    Map<CauseId, Double> peers = question.peers(question.copy());
    assertThat(peers).hasSizeGreaterThanOrEqualTo(14);
    peers.forEach((c, p) -> assertThat(p).as("%s", c).isCloseTo(ours.get(c), within(1e-9)));
    ours.forEach(
        (c, p) -> {
          if (!peers.containsKey(c)) {
            assertThat(p).as("%s, which only a repair may cause", c).isZero();
          }
        });
  }

  // Lauritzen and Spiegelhalter, JRSS B 50(2), 1988, 157-224, "chest clinic"; posteriors as
  // published with an open R library
  @Test
  void peerGivesThePublishedPosteriors_whenAskedTheChestClinic() throws Exception {
    DiscreteNetwork clinic =
        new DiscreteNetwork(
            List.of(
                node("asia", new int[] {}, .01),
                node("smoke", new int[] {}, .5),
                node("tub", new int[] {0}, .01, .05),
                node("lung", new int[] {1}, .01, .1),
                node("bronc", new int[] {1}, .3, .6),
                node("either", new int[] {2, 3}, 0, 1, 1, 1),
                node("xray", new int[] {5}, .05, .98),
                node("dysp", new int[] {4, 5}, .1, .7, .8, .9)));
    Peer peer = new Peer(clinic, Map.of(0, ALWAYS, 7, ALWAYS));
    MarginCalculator told = peer.enter(peer.copy());
    assertThat(told.getMargin(3)[1]).isCloseTo(0.09952515, within(1e-8));
    assertThat(told.getMargin(4)[1]).isCloseTo(0.8114021, within(1e-7));
    Peer smoker = new Peer(clinic, Map.of(0, ALWAYS, 7, ALWAYS, 1, ALWAYS));
    assertThat(smoker.enter(smoker.copy()).getMargin(3)[1]).isCloseTo(0.1455191, within(1e-7));
    Peer healthy = new Peer(clinic, Map.of(5, NEVER));
    assertThat(healthy.enter(healthy.copy()).getMargin(2)[1]).isCloseTo(0, within(1e-12));
  }

  @Test
  void allContendersGiveTheSamePosteriors_whenAskedTheChestClinicTwice() throws Exception {
    Asked asked = Asked.of("asia").orElseThrow();
    Ours ours = new Ours(asked.network(), asked.likelihoods());
    Agreement.checked(new Peer(asked.network(), asked.likelihoods()), ours);
    SecondPeer second = new SecondPeer(asked.network(), asked.likelihoods());
    Agreement.checked(second, ours);
    second.reset();
    assertThat(Agreement.furthestApart(ours.answer(), second.answer())).isLessThan(1e-12);
  }

  @Test
  void twoLevelNetworkGivesThePeersPosteriors_byBothWays() throws Exception {
    TwoLevel network = new TwoLevel();
    double[] peers = network.peers();
    assertThat(network.direct()).containsExactly(peers, within(1e-9));
    assertThat(network.ours()).containsExactly(peers, within(1e-9));
  }

  /** Yes or no; P(yes) for each combination of the parents, the last parent running fastest. */
  private static DiscreteNetwork.Node node(String name, int[] parents, double... pYes) {
    double[] rows = new double[2 * pYes.length];
    for (int i = 0; i < pYes.length; i++) {
      rows[2 * i] = 1 - pYes[i];
      rows[2 * i + 1] = pYes[i];
    }
    return new DiscreteNetwork.Node(name, 2, parents, rows);
  }
}
