package org.faultwright.interchange;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.TableState;
import org.faultwright.interchange.BayesNetwork.Variable;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Ordered;

/**
 * The network of a pack, for a device as it is taken in, so that any program that reads networks
 * can be asked the same question. Beside the variables of the engine's own network there is one for
 * each cause, by its id, and one for each variable that facts are evidence about, {@code told 1}
 * and so on: known to be yes, it weighs the states as the facts do.
 *
 * @param network the network
 * @param causes the variable of each cause that can be present
 * @param told the variables to be taken as known to be yes
 */
public record PackNetwork(BayesNetwork network, Map<CauseId, Integer> causes, List<Integer> told) {

  private static final List<String> NO_YES = List.of("no", "yes");

  /** Copies the collections. */
  public PackNetwork {
    causes = Ordered.copy(causes);
    told = List.copyOf(told);
  }

  /**
   * The network with what some facts say; empty where readings of several points share the error of
   * an instrument, which no weights of single variables say.
   *
   * @param facts facts about a device as taken in: no attempts among them
   * @throws IllegalArgumentException when a step was carried out
   */
  public static Optional<PackNetwork> of(CompiledPack pack, List<Fact> facts) {
    List<Told> all = new ArrayList<>();
    for (Fact fact : facts) {
      if (fact instanceof Fact.StepDone done) {
        throw new IllegalArgumentException(
            "facts must be about a device as taken in, and this carries out a step: "
                + done.step());
      }
      all.add(new Told(new FactId(all.size() + 1), Optional.empty(), fact));
    }
    if (pack.haveSharedError(all)) {
      return Optional.empty();
    }
    String name = pack.pack().id().toString();
    List<Variable> variables = new ArrayList<>(BayesNetwork.of(name, pack.tables(all)).variables());
    Map<CauseId, Integer> causes = new LinkedHashMap<>();
    pack.causesIn(all)
        .forEach(
            (id, at) -> {
              causes.put(id, variables.size());
              variables.add(present(id, at, variables.get(at.variable()).states().size()));
            });
    List<Integer> told = new ArrayList<>();
    pack.likelihoods(all)
        .forEach(
            (v, weights) -> {
              told.add(variables.size());
              variables.add(told("told " + told.size(), v, weights));
            });
    return Optional.of(new PackNetwork(new BayesNetwork(name, variables), causes, told));
  }

  private static Variable present(CauseId id, TableState at, int states) {
    List<List<Double>> rows = new ArrayList<>();
    for (int s = 0; s < states; s++) {
      rows.add(s == at.state() ? List.of(0.0, 1.0) : List.of(1.0, 0.0));
    }
    return new Variable(id.value(), NO_YES, List.of(at.variable()), rows);
  }

  private static Variable told(String name, int about, double[] weights) {
    double most = Arrays.stream(weights).max().orElse(1);
    List<List<Double>> rows = new ArrayList<>();
    for (double w : weights) {
      double yes = most == 0 ? 0 : w / most;
      rows.add(List.of(1 - yes, yes));
    }
    return new Variable(name, NO_YES, List.of(about), rows);
  }
}
