/**
 * What the engine is checked against: an enumerator of worlds and a simulator of the bench, each
 * written from {@code engine/docs/semantics.md} and from nothing else, and makers of random packs
 * and cases for them.
 *
 * <p>Obviously right comes before fast. Entry types: {@code WorldEnumerator}, {@code
 * BenchSimulator}, {@code RandomPacks}, {@code RandomCases}. May use {@code pack}, {@code casefile}
 * and {@code measurement}; never {@code compile} or {@code inference}, which it checks.
 */
package org.faultwright.oracle;
