/**
 * The API that hosts call: open a diagnosis, tell it facts, ask for the ranking and the advice.
 *
 * <p>Entry types: {@code Engine} and {@code Diagnosis}. May use every other package but {@code
 * interchange}.
 */
package org.faultwright.diagnosis;
