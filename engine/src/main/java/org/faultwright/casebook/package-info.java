/**
 * The journal of a case, the store of many, and what a shop learns from its own.
 *
 * <p>May use {@code casefile} and {@code compile}.
 */
package org.faultwright.casebook;
