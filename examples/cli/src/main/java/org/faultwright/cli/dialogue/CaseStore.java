package org.faultwright.cli.dialogue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.FactId;
import org.faultwright.cli.text.WholeFile;
import org.faultwright.pack.Pack;

/**
 * A case on disk. Each time the whole text is written beside it and then takes its place in one
 * move, so that a reader, or a machine that loses power, finds the case as it was or as it is. What
 * somebody else has written in the meantime is never written over. Confined to one thread.
 */
final class CaseStore {

  private Path file;
  private CaseText text;
  private Optional<String> onDisk;

  private CaseStore(Path file, CaseText text, Optional<String> onDisk) {
    this.file = file;
    this.text = text;
    this.onDisk = onDisk;
  }

  /** A place where nothing is yet. */
  static CaseStore atNew(Path file, Pack pack) {
    return new CaseStore(file, CaseText.ofNew(pack), Optional.empty());
  }

  /** A case as it was read. */
  static CaseStore at(Path file, Pack pack, CaseFile caseFile, String written) {
    return new CaseStore(file, CaseText.of(pack, caseFile, written), Optional.of(written));
  }

  /** Where it is. */
  Path file() {
    return file;
  }

  /** The facts that one answer told with the one above them, as far as the text says so. */
  Set<FactId> joined() {
    return text.joined();
  }

  /** Goes on in another place, where nothing is yet. */
  void moveTo(Path other) {
    file = other;
    onDisk = Optional.empty();
  }

  /**
   * Writes the case; when this returns, it is there.
   *
   * @param joined facts that one answer told with the one above them
   * @throws IOException when it cannot be written, or somebody else has changed the file; the
   *     message is for the person at the terminal
   */
  void save(CaseFile caseFile, Set<FactId> joined) throws IOException {
    String now = text.of(caseFile, joined);
    if (Optional.of(now).equals(onDisk) && Files.exists(file)) {
      return;
    }
    checkUntouched();
    WholeFile.write(file, now);
    onDisk = Optional.of(now);
  }

  /** Writes a copy; the case stays where it is. */
  void copyTo(Path other, CaseFile caseFile, Set<FactId> joined) throws IOException {
    if (Files.exists(other)) {
      throw new IOException("there is a file " + other + " already");
    }
    WholeFile.write(other, text.of(caseFile, joined));
  }

  private void checkUntouched() throws IOException {
    boolean there = Files.exists(file);
    if (there && onDisk.isEmpty()) {
      throw new IOException("there is a file " + file + " already");
    }
    if (there && !Files.readString(file).equals(onDisk.get())) {
      throw new IOException("somebody else has changed " + file);
    }
  }
}
