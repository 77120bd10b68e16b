/**
 * Classical measures of a pack's fault trees: cut sets, importance and bounds.
 *
 * <p>May use {@code compile} and {@code inference}.
 */
package org.faultwright.faulttree;
