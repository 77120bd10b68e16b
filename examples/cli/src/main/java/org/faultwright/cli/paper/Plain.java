package org.faultwright.cli.paper;

import org.faultwright.cli.text.Letters;

/** Words of packs and cases made fit for paper. */
final class Plain {

  private Plain() {}

  /**
   * The text without anything that could steer its writing (control characters, changes of
   * direction, line ends), each number bound to its unit.
   */
  static String of(String text) {
    return Letters.bind(Letters.harmless(text).strip(), '\u00a0');
  }
}
