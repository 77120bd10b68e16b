/**
 * What an author states: the records of a pack, its condition trees, the YAML reader, the checks
 * and the library of packs.
 *
 * <p>Entry types: {@code Pack} and {@code PackLibrary}. May use {@code problem} and {@code
 * measurement}.
 */
package org.faultwright.pack;
