package org.faultwright.pack.check;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.problem.Problem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Branches of checks beyond the one broken file and the one near miss that each has. */
class PackChecksTest {

  private static final String SOUND =
      """
      pack: finch-handset/power
      version: 1.0.0
      format: 1
      title: Finch handset, power (invented)
      basis: invented
      boards: [rev-a, rev-b]
      activities: {solder: Soldering, lifting: Lifting the lid}
      switches:
        device-open:
          off-called: device-closed
          start: off
          turn-on: {minutes: 5}
          turn-off: {minutes: 5}
        cell-in:
          off-called: cell-out
          start: on
          turn-on: {minutes: 1, needs: [device-open]}
          turn-off: {minutes: 1, needs: [device-open]}
      complaints: {does-not-start: {event: no-start}}
      symptoms:
        smell: {shows: {any: {fuse-open: 50 %}, cries-wolf: 2 %}}
      causes:
        fuse-open: {prior: 2 %}
        cell-flat: {prior: 3 %}
        unlisted: {prior: 1 %}
      one-of:
        supply: {members: [fuse-open, cell-flat]}
      events: {no-start: {any: [fuse-open, cell-flat, unlisted]}}
      steps:
        measure: {minutes: 2, boards: [rev-a], points: {rail: {reference: {low: 3.5 V, high: 4.2 V}, low: [cell-flat]}}}
        look:
          minutes: 2
          shows:
            states:
              - {state: burnt, any: [fuse-open]}
            outcomes: [dark, bright]
            rows:
              burnt: {dark: 90 %, bright: 10 %}
              normal: {dark: 5 %, bright: 95 %}
        mend: {minutes: 5, needs: [device-open], changes: {fuse-open: {cures: 95 %}, cell-flat: {cures: 80 %}}}
        starts-up:
          minutes: 1
          proves: {complaint: does-not-start, catches: 97 %, cries-wolf: 1 %}
      """;

  private static List<String> problems(String text) {
    return new PackReader()
        .read("pack.yaml", text).problems().stream()
            .map(PackChecksTest::shown)
            .collect(Collectors.toList());
  }

  private static String shown(Problem p) {
    return p.id() + ": " + p.message();
  }

  private static String with(String old, String now) {
    assertThat(SOUND).contains(old);
    return SOUND.replace(old, now);
  }

  @Test
  void soundPack_hasNoProblems() {
    assertThat(problems(SOUND)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          unlisted: {prior: 1 %} | unlisted: {prior: 1 %, kind: fault} | complaint-without-unlisted: complaint 'does-not-start' leaves no room for a cause that this pack does not list
          fuse-open: {prior: 2 %} | fuse-open: {prior: 97 %} | group-likelihoods: group 'supply': priors sum to 100 %, which leaves nothing for 'none of them'
          fuse-open: {prior: 2 %} | fuse-open: {share: {chance: 1, why: alone}, of: does-not-start} | group-likelihoods: group 'supply': some members state priors and others shares
          low: [cell-flat]} | low: [cell-flat], high: {cell-flat: {chance: 0, why: never}}} | state-never-active: state 'high' is never the true state: whatever triggers it triggers a state listed before it
          low: [cell-flat]} | basis: invented} | step-tells-nothing: point 'rail' tells nothing: each outcome is equally likely whatever is wrong
          low: [cell-flat]} | states: {tired: {any: [cell-flat], lies: {low: 3.6 V, high: 3.7 V}}}} | reading-states-overlap-normal: in state 'tired' of point 'rail' most readings look normal
          any: {fuse-open: 50 %}, cries-wolf: 2 % | any: {fuse-open: 2 %}, cries-wolf: 2 % | step-tells-nothing: symptom 'smell' tells nothing: each outcome is equally likely whatever is wrong
          burnt: {dark: 90 %, bright: 10 %} | burnt: {dark: 5 %, bright: 95 %} | step-tells-nothing: step 'look' tells nothing: each outcome is equally likely whatever is wrong
          cell-flat: {cures: 80 %} | cell-flat: {cures: 80 %}, unlisted: {hides: {chance: 0, why: never}} | cure-of-nothing: step 'mend' neither cures nor hides cause 'unlisted'
          boards: [rev-a], points | boards: [rev-a], only-if: {board: rev-b}, points | only-if-never: step 'measure' can never be done: it is not for board 'rev-b'
          needs: [device-open], changes | needs: [device-open], only-if: {bench: device-closed}, changes | only-if-never: step 'mend' can never be done: switch 'device-open' cannot be both off and on
          needs: [device-open], changes | only-if: {not: {outcome: starts-up, is: passed}}, waits-for: [mend], changes | waits-for-cycle: steps wait for each other: 'mend' waits for 'mend'
          needs: [device-open], changes | only-if: {all: [{symptom: smell, is: present}, {not: {symptom: smell, is: present}}]}, changes | only-if-never: step 'mend' can never be done: symptom 'smell' cannot both be so and not be so
          needs: [device-open], changes | only-if: {any: [{done: mend}, {all: [{board: rev-a}, {board: rev-b}]}]}, changes | only-if-never: step 'mend' can never be done: board cannot be both rev-a and rev-b
          needs: [device-open], changes | needs: [device-closed, cell-out], does: [solder], changes | missing-caution: step 'mend' involves 'solder' and shows no caution
          turn-on: {minutes: 5} | turn-on: {minutes: 5, does: [solder]} | missing-caution: turn-on of switch 'device-open' involves 'solder' and shows no caution
          turn-on: {minutes: 5} | turn-on: {minutes: 5, needs: [cell-in, cell-out]} | needs-both-positions: turn-on of switch 'device-open' needs both 'cell-in' and 'cell-out'
          turn-on: {minutes: 5} | turn-on: {minutes: 5, needs: [cell-out]} | switch-unreachable: step 'mend' needs 'device-open', which no turning of switches leads to
          """)
  void oneChange_makesOneProblem(String old, String now, String problem) {
    assertThat(problems(with(old, now))).contains(problem);
  }

  /** With thirteen switches, positions are looked at one by one. */
  @Test
  void manySwitches_areStillLookedAt() {
    String more =
        IntStream.range(0, 12)
            .mapToObj(
                i ->
                    "  lamp-%d: {off-called: no-lamp-%d, start: off, turn-on: {minutes: 1}, turn-off: never}\n"
                        .formatted(i, i))
            .collect(Collectors.joining());
    String many = SOUND.replace("complaints: {does", more + "complaints: {does");
    assertThat(problems(many)).isEmpty();
    assertThat(problems(many.replace("turn-on: {minutes: 5}", "turn-on: never")))
        .contains(
            "switch-unreachable: step 'mend' needs 'device-open', which no turning of switches leads"
                + " to");
  }

  @Test
  void allProblems_areToldAtOnce_inOrderOfPlace() {
    String two =
        SOUND
            .replace("fuse-open: 50 %}, cries-wolf: 2 %", "fuse-open: 2 %}, cries-wolf: 2 %")
            .replace("members: [fuse-open, cell-flat]", "members: [fuse-open]");
    assertThat(new PackReader().read("pack.yaml", two).problems())
        .extracting(Problem::id)
        .containsExactly("step-tells-nothing", "one-of-alone");
  }
}
