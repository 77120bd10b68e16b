/**
 * One job at the bench: facts in order, the state of the bench, and the {@code Guard}, a condition
 * tree evaluated on a case.
 *
 * <p>Entry types: {@code CaseFile} and {@code Fact}. May use {@code pack} and {@code measurement}.
 */
package org.faultwright.casefile;
