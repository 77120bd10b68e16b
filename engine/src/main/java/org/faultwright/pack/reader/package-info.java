/**
 * From the text of a pack to a {@code Pack}: the keys of format 1, section by section, fragments of
 * the shared vocabulary, and the library of packs.
 *
 * <p>Entry types: {@code PackReader} and {@code PackLibrary}. May use all other packages below
 * {@code pack}.
 */
package org.faultwright.pack.reader;
