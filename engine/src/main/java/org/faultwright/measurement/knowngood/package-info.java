/**
 * References from known-good boards: what readings of the same pins on several good boards say
 * about all good boards, and what that is worth. {@code engine/docs/references.md} says which
 * statistic is used when.
 *
 * <p>Entry types: {@code BoardTables} reads the readings, {@code KnownGood} makes references of
 * them. May use the packages {@code measurement} and {@code measurement.table}.
 */
package org.faultwright.measurement.knowngood;
