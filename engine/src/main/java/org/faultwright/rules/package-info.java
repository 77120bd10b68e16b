/**
 * Which facts stand, what is safe, which steps are open and why the others are not, and what kind
 * of advice is due.
 *
 * <p>The only package that sees Drools, and the only one that makes holds, blocked steps and
 * advice. May use {@code pack} and {@code casefile}.
 */
package org.faultwright.rules;
