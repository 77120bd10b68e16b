package org.faultwright.explanation;

import org.faultwright.compile.Sensitivity;
import org.faultwright.pack.Pack;

/** Numbers of a pack in words, as a technician reads them. */
public final class NumberWords {

  private NumberWords() {}

  /** What is counted or rated, without its value. */
  public static String of(Pack pack, Sensitivity.Number number) {
    if (number instanceof Sensitivity.Number.PriorOf n) {
      return "devices that come with \"" + pack.causes().get(n.cause()).title() + "\"";
    } else if (number instanceof Sensitivity.Number.Catches n) {
      return "faults caught by \"" + FactWords.of(pack, n.told().fact()) + "\"";
    } else if (number instanceof Sensitivity.Number.CriesWolf n) {
      return "false alarms of \"" + FactWords.of(pack, n.told().fact()) + "\"";
    }
    Sensitivity.Number.Shows shows = (Sensitivity.Number.Shows) number;
    return "\""
        + FactWords.of(pack, shows.told().fact())
        + "\" in state "
        + shows.state().value().replace('-', ' ');
  }
}
