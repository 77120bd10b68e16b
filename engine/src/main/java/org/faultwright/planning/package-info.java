/**
 * What a step is worth, the order of repairs, and whole plans.
 *
 * <p>Entry type: {@code Worth}. May use {@code compile} and {@code casefile}. It has no permission
 * logic of its own: it evaluates the guards that the rules composed.
 */
package org.faultwright.planning;
