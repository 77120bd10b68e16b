/**
 * Positions in a file, the problems found there and how they are shown to the person who wrote it.
 *
 * <p>Entry type: {@code Problem}. Uses no other package of the engine.
 */
package org.faultwright.problem;
