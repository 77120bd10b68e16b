package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.planning.PlanLimits;

/** A small pack as an author writes it, and cases of it, for tests of plans. */
final class FinchCase {

  static final String PACK =
      """
      pack: finch-handset/power
      version: 1.0.0
      format: 1
      title: Finch handset, power (invented)
      basis: invented

      switches:
        device-open:
          title: Device open
          off-called: device-closed
          start: off
          closed-when-off: yes
          turn-on: {minutes: 5, does: [lifting]}
          turn-off: {minutes: 5}

      activities:
        lifting: Lifting the lid

      consents:
        opening: Opening the device

      complaints:
        does-not-start: {event: no-start}

      symptoms:
        cell-bulges: {title: The cell bulges}

      parts:
        fuse: {carries: [fuse-open], price: 20}

      causes:
        fuse-open: {prior: 2 %}
        unlisted: {prior: 0.1 %}

      events:
        no-start: {any: [fuse-open, unlisted]}

      steps:
        look-at-fuse:
          minutes: 2
          needs: [device-open]
          shows: {cause: fuse-open, catches: 90 %, cries-wolf: 2 %}
        take-cell-out:
          minutes: 3
        replace-fuse:
          minutes: 5
          swap: fuse
          donor-good: 99 %
          needs: [device-open]
          then-repeat: starts-up
        starts-up:
          minutes: 1
          proves: {complaint: does-not-start, catches: 97 %, cries-wolf: 1 %}

      holds:
        bulge:
          when: {symptom: cell-bulges, is: present}
          forbids: [lifting]
          until: {done: take-cell-out}
          says: Leave the lid alone until the cell is out.
      """;

  static final String REPORTED = "- complaint: does-not-start\n";

  private FinchCase() {}

  static Pack pack(String text) {
    PackReading reading = new PackReader().read(YamlText.of("pack.yaml", text));
    assertThat(reading).as(reading.report()).isInstanceOf(PackReading.Readable.class);
    return ((PackReading.Readable) reading).pack();
  }

  static PlanResult plan(String packText, String intake, String facts) {
    return plan(packText, intake, facts, PlanLimits.ORDINARY);
  }

  static PlanResult plan(String packText, String intake, String facts, PlanLimits limits) {
    Pack pack = pack(packText);
    String text =
        "case: c\nformat: 1\npack: finch-handset/power\n"
            + intake
            + "\nfacts:"
            + (facts.isEmpty() ? " []\n" : "\n" + facts.indent(2));
    CaseReading reading = new CaseReader(pack).read(YamlText.of("case.yaml", text));
    assertThat(reading).as(reading.report()).isInstanceOf(CaseReading.Readable.class);
    try (Diagnosis diagnosis =
        Engine.create().resume(pack, ((CaseReading.Readable) reading).caseFile())) {
      return diagnosis.plan(limits);
    }
  }

  /** The problems of a pack as its author reads them. */
  static String problems(String text) {
    return new PackReader().read(YamlText.of("pack.yaml", text)).report();
  }
}
