package org.faultwright.cli.text;

/**
 * How a stretch of text stands out where colour can be shown. Never the only sign: what stands out
 * is also said in words or capitals.
 */
public enum Ink {
  /** As the terminal writes. */
  PLAIN(""),
  /** Headings, and what to do. */
  STRONG("1"),
  /** Danger: holds and alarms. */
  DANGER("1;31"),
  /** Cautions. */
  CAUTION("33"),
  /** How likely. */
  BAR("36");

  private final String code;

  Ink(String code) {
    this.code = code;
  }

  /** The text between the codes that switch the ink on and off. */
  String on(String text) {
    return code.isEmpty() || text.isEmpty() ? text : "\u001b[" + code + "m" + text + "\u001b[0m";
  }
}
