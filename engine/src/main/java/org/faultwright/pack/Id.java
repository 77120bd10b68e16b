package org.faultwright.pack;

import java.util.regex.Pattern;

/**
 * A name that a pack gives to one of its things: lower-case letters, digits and single hyphens, at
 * most {@value #MAX_LENGTH} characters, for example {@code flex-cracked}.
 */
public sealed interface Id
    permits NodeId,
        ComplaintId,
        HistoryId,
        SymptomId,
        StepId,
        PartId,
        PointId,
        SwitchId,
        HoldId,
        CautionId,
        SourceId,
        RailId,
        BoardId,
        InstrumentId,
        ToolId,
        OutcomeId,
        StateId,
        ConsentId,
        GroupId,
        ActivityId,
        ModeId {

  /** Longest id that is accepted. */
  int MAX_LENGTH = 64;

  /** The spelling of an id. */
  Pattern SPELLING = Pattern.compile("[a-z0-9]+(-[a-z0-9]+)*");

  /** The name as written. */
  String value();

  /** Whether the text is spelt as an id. */
  static boolean isWellSpelt(String text) {
    return text.length() <= MAX_LENGTH && SPELLING.matcher(text).matches();
  }

  /**
   * Checks the spelling of an id.
   *
   * @throws IllegalArgumentException when the text is not spelt as an id
   */
  static void check(String text) {
    if (!isWellSpelt(text)) {
      throw new IllegalArgumentException(
          "id must be lower-case letters, digits and single hyphens, at most "
              + MAX_LENGTH
              + " characters: "
              + text);
    }
  }
}
