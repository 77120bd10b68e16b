package org.faultwright.problem;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;

class NearestTest {

  /** Each slip counts one: a letter too many, missing, wrong, or two swapped. By definition. */
  @Test
  void slips_countOneEach() {
    assertThat(Nearest.distance("fuse-open", "fuse-opne")).isEqualTo(1);
    assertThat(Nearest.distance("fuse-open", "fuse-opn")).isEqualTo(1);
    assertThat(Nearest.distance("fuse-open", "fuse-oppen")).isEqualTo(1);
    assertThat(Nearest.distance("fuse-open", "fuse-open")).isZero();
    assertThat(Nearest.distance("", "abc")).isEqualTo(3);
  }

  /** Worked examples of edit distance, common practice, no source. */
  @Test
  void distance_isThatOfKnownPairs() {
    assertThat(Nearest.distance("kitten", "sitting")).isEqualTo(3);
    assertThat(Nearest.distance("saturday", "sunday")).isEqualTo(3);
    // Optimal string alignment does not edit a pair of letters twice; the unrestricted distance is
    // 2.
    assertThat(Nearest.distance("ca", "abc")).isEqualTo(3);
  }

  @Test
  void nearestWord_isFound_andFarOnesAreNot() {
    List<String> words = List.of("lint-in-port", "port-worn", "fuse-open");
    assertThat(Nearest.of("port-wron", words)).contains("port-worn");
    assertThat(Nearest.of("Port-Worn", words)).contains("port-worn");
    assertThat(Nearest.of("battery", words)).isEmpty();
    assertThat(Nearest.of("", words)).isEmpty();
    assertThat(Nearest.didYouMean("fuse-opne", words)).isEqualTo("did you mean 'fuse-open'?");
  }

  @Test
  void ofSeveralEquallyNear_theFirstIsTaken() {
    assertThat(Nearest.of("rev-c", List.of("rev-a", "rev-b"))).contains("rev-a");
  }

  @Property(tries = 300)
  void distance_isAMetricOfSorts(
      @ForAll @StringLength(max = 8) @CharRange(from = 'a', to = 'c') String a,
      @ForAll @StringLength(max = 8) @CharRange(from = 'a', to = 'c') String b) {
    int d = Nearest.distance(a, b);
    assertThat(d).isEqualTo(Nearest.distance(b, a));
    assertThat(d == 0).isEqualTo(a.equals(b));
    assertThat(d).isBetween(Math.abs(a.length() - b.length()), Math.max(a.length(), b.length()));
  }
}
