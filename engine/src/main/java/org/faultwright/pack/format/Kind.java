package org.faultwright.pack.format;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What an id can name. */
public enum Kind {
  /** A cause. */
  CAUSE("cause", "causes"),
  /** An intermediate event. */
  EVENT("event", "events"),
  /** A complaint. */
  COMPLAINT("complaint", "complaints"),
  /** Something in the device's history. */
  HISTORY("history", "history"),
  /** A symptom. */
  SYMPTOM("symptom", "symptoms"),
  /** A step. */
  STEP("step", "steps"),
  /** A part. */
  PART("part", "parts"),
  /** A point where a reading is taken; defined within a step. */
  POINT("point", ""),
  /** A switch of the bench. */
  SWITCH("switch", "switches"),
  /** A position of a switch, by its name; defined with the switch. */
  BENCH_STATE("bench state", ""),
  /** A hold. */
  HOLD("hold", "holds"),
  /** A caution. */
  CAUTION("caution", "cautions"),
  /** A source of numbers. */
  SOURCE("source", "sources"),
  /** A supply rail. */
  RAIL("rail", "rails"),
  /** A board variant; listed in {@code boards}. */
  BOARD("board", ""),
  /** An instrument. */
  INSTRUMENT("instrument", "instruments"),
  /** A tool. */
  TOOL("tool", "tools"),
  /** Something to agree to. */
  CONSENT("consent", "consents"),
  /** An activity that holds can forbid. */
  ACTIVITY("activity", "activities"),
  /** A group of causes. */
  GROUP("group", "one-of");

  private final String word;
  private final String section;

  Kind(String word, String section) {
    this.word = word;
    this.section = section;
  }

  /** What an author calls it. */
  public String word() {
    return word;
  }

  /** The key of a pack under which such things are defined; empty: defined in another way. */
  public Optional<String> section() {
    return Optional.of(section).filter(s -> !s.isEmpty());
  }

  /** Id of the problem that one is referred to and not there. */
  public String unknown() {
    return "unknown-" + name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The kind that is defined under a key of a pack. */
  public static Optional<Kind> ofSection(String key) {
    return Arrays.stream(values()).filter(k -> k.section.equals(key)).findFirst();
  }
}
