/**
 * Variables, factors, the arithmetic circuit compiled from them, and exact posteriors.
 *
 * <p>Entry types: {@code Circuit} for a model that is asked again and again; {@code Inquiry} for
 * one question to a network; {@code TwoLevelNetwork} for causes and findings with nothing between.
 * Speaks mathematics, not the trade, and uses the JDK only, so that it can be read, tested and
 * moved on its own.
 */
package org.faultwright.inference;
