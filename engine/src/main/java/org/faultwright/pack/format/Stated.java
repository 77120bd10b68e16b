package org.faultwright.pack.format;

import java.math.BigDecimal;
import org.faultwright.pack.Chance;
import org.faultwright.problem.Span;

/**
 * A probability as it stands in a file.
 *
 * @param decimal the number as written, so that sums can be checked without rounding
 * @param chance the probability with its basis
 * @param at where the number stands
 */
public record Stated(BigDecimal decimal, Chance chance, Span at) {}
