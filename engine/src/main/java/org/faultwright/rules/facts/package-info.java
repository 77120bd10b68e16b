/**
 * The facts that the rules reason about: plain values, handed in by the working memory (what the
 * pack says, what has been told), by a diagnosis (what inference and planning found), or concluded
 * by the rules themselves.
 *
 * <p>Public because the compiled rules live in packages of their own. Hosts fill a {@code Summary}
 * with {@code Leader}, {@code TestWorth} and their like; the rest is between the rules. May use
 * {@code pack}, {@code casefile} and {@code measurement}.
 */
package org.faultwright.rules.facts;
