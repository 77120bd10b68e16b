package org.faultwright.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.faultwright.compile.CompilationProblems;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.PackCompilation;
import org.faultwright.faulttree.Dependence;
import org.faultwright.faulttree.EventName;
import org.faultwright.faulttree.FaultTree;
import org.faultwright.faulttree.PackTree;
import org.faultwright.interchange.ExchangeText;
import org.faultwright.interchange.OpenPsa;
import org.faultwright.interchange.Reading;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.check.Positions;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.SourceTexts;

/**
 * A fault tree with its top event, from a pack or a file.
 *
 * @param title what it is about
 * @param from where it comes from, in words
 * @param pack the pack tree, where it comes from a pack
 */
record DrawnTree(
    FaultTree tree, EventName top, String title, String from, Optional<PackTree> pack) {

  Dependence dependence() {
    return pack.map(PackTree::dependence).orElse(Dependence.NONE);
  }

  /**
   * The tree of a pack's complaint or event, or of a gate of a file.
   *
   * @param name a pack by name, a pack file, a file in the Open-PSA format, or - for standard input
   * @param top the complaint, event or gate; empty: the only one there is
   * @throws Stopped when there is no such thing
   */
  static DrawnTree of(
      String name,
      Optional<String> top,
      OptionalDouble missionTime,
      PacksOption packs,
      Surroundings surroundings) {
    Optional<ExchangeText> text = file(name, surroundings);
    if (text.isPresent() && isXml(text.get())) {
      return ofFile(value(OpenPsa.read(text.get(), missionTime), surroundings), name, top);
    }
    if (text.filter(DrawnTree::isBif).isPresent()) {
      throw Stopped.byUsage(
          "'" + name + "' is a network in BIF, which has no gates; the command for it is network");
    }
    return ofPack(compiled(pack(name, text, packs, surroundings)), top);
  }

  /** The file of this name; empty where there is none. */
  static Optional<ExchangeText> file(String name, Surroundings surroundings) {
    if (name.equals(Sources.STANDARD_INPUT)) {
      try {
        return Optional.of(ExchangeText.read(name, surroundings.in()));
      } catch (IOException e) {
        throw Stopped.byUsage("standard input cannot be read: " + e.getMessage());
      }
    }
    try {
      return Files.isRegularFile(Path.of(name))
          ? Optional.of(ExchangeText.read(Path.of(name)))
          : Optional.empty();
    } catch (InvalidPathException e) {
      return Optional.empty();
    }
  }

  /**
   * A mission time that was given, or not.
   *
   * @throws Stopped when it is no time
   */
  static OptionalDouble time(Double given) {
    if (given == null) {
      return OptionalDouble.empty();
    }
    if (!(given >= 0 && given < Double.POSITIVE_INFINITY)) {
      throw Stopped.byUsage("--mission-time must not be negative: " + given);
    }
    return OptionalDouble.of(given);
  }

  static boolean isXml(ExchangeText text) {
    return text.text().stripLeading().startsWith("<");
  }

  /** Whether a text begins as networks in BIF do. */
  static boolean isBif(ExchangeText text) {
    String start = text.text().replaceAll("(?s)/\\*.*?\\*/|//[^\\n]*", "").stripLeading();
    return start.startsWith("network") || start.startsWith("variable");
  }

  /** What was read; warnings go to standard error. */
  static <T> T value(Reading<T> reading, Surroundings surroundings) {
    if (reading instanceof Reading.Readable<T> readable) {
      surroundings.report(readable.report());
      return readable.value();
    }
    throw Stopped.byProblems(reading.report());
  }

  /** The pack of this name, or in this file. */
  static Pack pack(
      String name, Optional<ExchangeText> text, PacksOption packs, Surroundings surroundings) {
    PackReading reading;
    if (text.isPresent()) {
      text.get()
          .problem()
          .ifPresent(
              p -> {
                throw Stopped.byProblems(ProblemReport.of(List.of(p), text.get().source()));
              });
      reading = new PackReader().read(YamlText.of(name, text.get().text()));
    } else {
      reading = named(name, packs.library(Optional.empty()));
    }
    if (reading instanceof PackReading.Readable readable) {
      return readable.pack();
    }
    throw Stopped.byProblems(ProblemReport.of(reading.problems(), reading.texts()));
  }

  /** A pack by its name, or several of a family that are used as one. */
  private static PackReading named(String name, PackLibrary library) {
    Optional<PackReading> found = Optional.empty();
    try {
      found = library.read(PackId.parse(name));
    } catch (IllegalArgumentException e) {
      // spelt as no name of a pack: told below, like one that is not there
    }
    List<String> known = library.ids().stream().map(PackId::toString).sorted().toList();
    return found.orElseThrow(
        () ->
            Stopped.byUsage(
                "there is no pack and no file '"
                    + name
                    + "'; "
                    + Nearest.of(name, known)
                        .map(near -> "did you mean '" + near + "'?")
                        .orElse("the packs are: " + String.join(", ", known))));
  }

  static CompiledPack compiled(Pack pack) {
    PackCompilation result = CompiledPack.compile(pack);
    Optional<Problem> problem =
        CompilationProblems.of(result, pack, Positions.none("pack " + pack.id()));
    problem.ifPresent(
        p -> {
          throw Stopped.byProblems(ProblemReport.of(List.of(p), SourceTexts.NONE));
        });
    return (CompiledPack) result;
  }

  private static DrawnTree ofFile(FaultTree tree, String file, Optional<String> asked) {
    List<String> all = tree.nodes().keySet().stream().map(EventName::value).toList();
    List<String> roots = tree.roots().stream().map(EventName::value).toList();
    EventName top = new EventName(chosen(asked, roots, all, "top event", "'" + file + "'"));
    String label = tree.nodes().get(top).label();
    return new DrawnTree(
        tree,
        top,
        label,
        (tree.label().isEmpty() ? "fault tree " + tree.name() : tree.label()) + ", " + file,
        Optional.empty());
  }

  private static DrawnTree ofPack(CompiledPack compiled, Optional<String> asked) {
    Pack pack = compiled.pack();
    List<String> complaints = pack.complaints().keySet().stream().map(ComplaintId::value).toList();
    List<String> all =
        Stream.concat(complaints.stream(), pack.events().keySet().stream().map(EventId::value))
            .toList();
    String top = chosen(asked, complaints, all, "complaint or event", "pack '" + pack.id() + "'");
    boolean complaint = complaints.contains(top);
    PackTree tree =
        complaint
            ? PackTree.of(compiled, new ComplaintId(top))
            : PackTree.of(compiled, new EventId(top));
    String title =
        complaint
            ? pack.complaints().get(new ComplaintId(top)).title()
            : pack.events().get(new EventId(top)).title();
    return new DrawnTree(
        tree.tree(),
        tree.top(),
        title,
        (complaint ? "complaint " + top + ", " : "")
            + pack.title()
            + (pack.invented() ? " (invented)" : "")
            + (complaint ? ", as taken in, in use" : ", as taken in, at rest"),
        Optional.of(tree));
  }

  private static String chosen(
      Optional<String> asked, List<String> likely, List<String> all, String what, String of) {
    if (asked.isEmpty()) {
      if (likely.size() == 1) {
        return likely.get(0);
      }
      throw Stopped.byUsage(
          "which "
              + what
              + " of "
              + of
              + "? "
              + (likely.isEmpty() ? "There is none" : "There are: " + listed(likely)));
    }
    if (all.contains(asked.get())) {
      return asked.get();
    }
    throw Stopped.byUsage(
        of
            + " has no "
            + what
            + " '"
            + asked.get()
            + "'; "
            + Nearest.of(asked.get(), all)
                .map(near -> "did you mean '" + near + "'?")
                .orElse("there are: " + listed(likely)));
  }

  private static String listed(List<String> names) {
    List<String> shown = new ArrayList<>(names.subList(0, Math.min(12, names.size())));
    if (shown.size() < names.size()) {
      shown.add("and " + (names.size() - shown.size()) + " more");
    }
    return String.join(", ", shown);
  }
}
