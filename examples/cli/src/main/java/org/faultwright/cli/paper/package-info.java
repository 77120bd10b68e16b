/**
 * A plan on paper: one page for the bench and for the customer, as HTML with a drawing or as
 * Markdown. Entry is {@link org.faultwright.cli.paper.PlanPaper}; {@code Contents} says what stands
 * on it, the writers how. All words of packs and cases are untrusted and escaped by the writers.
 *
 * <p>Uses the engine and the words of {@code cli.text}.
 */
package org.faultwright.cli.paper;
