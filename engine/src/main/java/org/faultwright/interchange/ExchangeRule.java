package org.faultwright.interchange;

import java.util.Locale;

/** What can be wrong with a file in an open format. Each has a page in the checks. */
public enum ExchangeRule {
  /** The file cannot be opened. */
  UNREADABLE_FILE,
  /** Larger than {@link ExchangeText#FILE_BYTES}. */
  FILE_TOO_LARGE,
  /** Not text in UTF-8. */
  NOT_TEXT,
  /** Nothing in it. */
  EMPTY_FILE,
  /** Not well-formed XML. */
  NOT_XML,
  /** XML with a document type, which could name other files or grow without end. */
  DOCTYPE,
  /** Nested too deep. */
  TOO_DEEP,
  /** More elements than are read. */
  TOO_MANY_NODES,
  /** An element or attribute that the format does not have at this place. */
  NOT_OF_THE_FORMAT,
  /** Part of the format that is not read here. */
  NOT_TAKEN,
  /** A name that is not spelt as one. */
  BAD_NAME,
  /** A number that is none, or is out of range. */
  BAD_NUMBER,
  /** An event, parameter or variable that nothing defines. */
  NOT_DEFINED,
  /** The same thing defined twice. */
  DEFINED_TWICE,
  /** Something that is made of itself. */
  CYCLE,
  /** The mission time is needed and not given. */
  NO_MISSION_TIME,
  /** Not the bracketed text form of BIF. */
  NOT_BIF,
  /** A table with too few or too many numbers, or a row that is missing. */
  TABLE_SIZE,
  /** A row that does not sum to 1. */
  ROW_SUM;

  /** Its id. */
  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
