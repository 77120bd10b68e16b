package org.faultwright.pack;

import java.util.Optional;
import java.util.OptionalInt;

/** A source of numbers: a standard, a data sheet, a handbook. */
public record Source(
    SourceId id,
    String title,
    Optional<String> edition,
    OptionalInt year,
    Optional<String> section) {}
