package org.faultwright.cli.text;

import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** Things of a pack by the names that the pages use, for those who ask questions about them. */
public final class Naming {

  private Naming() {}

  /** A point with its pin, where it is one. */
  public static String point(Point point) {
    return NextStep.point(point);
  }

  /** Where its reading lies when all is well. */
  public static String normal(Point point) {
    return NextStep.normal(point.reference());
  }

  /** What the customer is asked for. */
  public static String consent(Pack pack, ConsentId consent) {
    return Wording.consent(pack, consent);
  }

  /** The kind of a step and its title. */
  public static String step(Pack pack, StepId id) {
    Step step = pack.steps().get(id);
    return Wording.kind(step) + ": " + Wording.title(pack, id);
  }

  /** A caution in a few words, where it stands in full elsewhere. */
  public static String caution(String text) {
    return Wording.name(text);
  }

  /** A reason in which facts go by their numbers, as they do on the pages. */
  public static String plain(String words) {
    return Wording.plain(words);
  }

  /** Words that begin like a sentence. */
  public static String sentence(String words) {
    return Dangers.sentence(words);
  }
}
