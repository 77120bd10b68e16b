package org.faultwright.pack.check;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomPacks;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Severity;

class PackChecksProperty {

  private static List<Problem> problems(Pack pack) {
    return PackChecks.problems(pack, Positions.none("random"));
  }

  @Property(tries = 300)
  void errors_areNotFoundInPacksThatMeanSomething(@ForAll long seed) {
    Pack pack = RandomPacks.draw(new SplittableRandom(seed), PackFeature.all());
    assertThat(problems(pack)).filteredOn(p -> p.severity() == Severity.ERROR).isEmpty();
  }

  @Property(tries = 100)
  void problems_areTheSame_whenLookedForAgain(@ForAll long seed) {
    Pack pack = RandomPacks.drawWithShares(new SplittableRandom(seed), PackFeature.all());
    List<Problem> first = problems(pack);
    assertThat(problems(pack)).isEqualTo(first);
    assertThat(first)
        .extracting(Problem::id)
        .isSubsetOf(PackChecks.all().stream().map(PackCheck::id).toList());
  }
}
