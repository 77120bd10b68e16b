/**
 * What an author states: the records of a pack and its condition trees. Beside them stand the
 * packages {@code yaml} (text with positions), {@code format} (the forms and keys of format 1),
 * {@code check} (what a pack that reads well can still get wrong) and {@code reader} (from text to
 * pack, and the library of packs).
 *
 * <p>Entry types: {@code Pack}, {@code reader.PackReader} and {@code reader.PackLibrary}. May use
 * {@code problem} and {@code measurement}.
 */
package org.faultwright.pack;
