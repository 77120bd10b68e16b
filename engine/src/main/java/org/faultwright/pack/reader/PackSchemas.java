package org.faultwright.pack.reader;

import org.faultwright.pack.format.SchemaWriter;

/** The JSON Schemas of packs and fragments, written from the keys that the reader reads. */
public final class PackSchemas {

  private PackSchemas() {}

  /** The schema of a pack of format 1. */
  public static String pack() {
    return SchemaWriter.write("A pack, format 1", PackKeys.A_PACK.shape());
  }

  /** The schema of a fragment of format 1. */
  public static String fragment() {
    return SchemaWriter.write(
        "A fragment of the shared vocabulary, format 1", PackKeys.A_FRAGMENT.shape());
  }
}
