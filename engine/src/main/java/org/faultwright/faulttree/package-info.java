/**
 * Classical measures of a pack's fault trees: cut sets, importance and bounds.
 *
 * <p>Entry types: {@code FaultTree} and {@code TreeAnalysis}; {@code PackTree} makes a tree of a
 * pack.
 *
 * <p>May use {@code compile} and {@code inference}.
 */
package org.faultwright.faulttree;
