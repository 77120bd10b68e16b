/**
 * The one translator from the trade to mathematics: a pack becomes a network and a circuit, the
 * facts of a case become evidence.
 *
 * <p>Entry type: {@code CompiledPack}. May use {@code pack}, {@code casefile}, {@code measurement}
 * and {@code inference}.
 */
package org.faultwright.compile;
