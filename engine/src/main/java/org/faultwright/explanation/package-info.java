/**
 * Why this ranking, why this step, and what would change it, as values that a host can show in its
 * own words.
 *
 * <p>Entry type: {@code Explanation}. May use {@code compile}, {@code planning} and {@code rules}.
 */
package org.faultwright.explanation;
