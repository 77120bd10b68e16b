package org.faultwright.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.compile.CompilationProblems;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.Id;
import org.faultwright.pack.PackId;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.reader.Fragments;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.planning.ShopReader;
import org.faultwright.planning.ShopReading;
import org.faultwright.problem.Problem;
import org.faultwright.problem.SourceTexts;
import org.faultwright.problem.Span;

/**
 * Finds the problems of files that are linted together: a case is read with the pack among them,
 * and a pack with the fragments among them, before those that come along.
 */
final class Linting {

  /**
   * The problems of a file.
   *
   * @param texts the texts to show them in
   * @param skipped why the file was not looked at; empty: it was
   */
  record Found(List<Problem> problems, SourceTexts texts, Optional<String> skipped) {

    Found(List<Problem> problems, SourceTexts texts) {
      this(problems, texts, Optional.empty());
    }
  }

  private final PacksOption packs;
  private final Map<PackId, PackReading> readings = new LinkedHashMap<>();
  private final Map<String, YamlText> ownFragments = new LinkedHashMap<>();

  Linting(PacksOption packs) {
    this.packs = packs;
  }

  /** Reads the fragments and packs among the files. */
  void readPacks(List<YamlText> texts) {
    for (YamlText text : texts) {
      if (FileKind.of(text) == FileKind.FRAGMENT) {
        name(text).ifPresent(name -> ownFragments.putIfAbsent(name, text));
      }
    }
    for (YamlText text : texts) {
      if (FileKind.of(text) == FileKind.PACK) {
        // what a pack calls itself is where a case's name of it is looked up
        CaseReader.packNamedIn(text).ifPresent(id -> readings.putIfAbsent(id, reader().read(text)));
      }
    }
  }

  /** All problems of one of the files. */
  Found problemsOf(YamlText text) {
    return switch (FileKind.of(text)) {
      case PACK -> ofPack(text);
      case FRAGMENT -> ofFragment(text);
      case CASE -> ofCase(text);
      case SHOP -> ofShop(text);
      case UNKNOWN -> ofUnknown(text);
    };
  }

  private PackReader reader() {
    return new PackReader(new OwnFirst(ownFragments, Fragments.shared()));
  }

  private Found ofPack(YamlText text) {
    PackReading reading = reader().read(text);
    List<Problem> problems = new ArrayList<>(reading.problems());
    // problems of a fragment are shown with the fragment
    problems.removeIf(p -> p.where().filter(at -> isOwnFragment(at.file())).isPresent());
    if (reading instanceof PackReading.Readable r) {
      CompilationProblems.of(CompiledPack.compile(r.pack()), r.pack(), r.at())
          .ifPresent(problems::add);
    }
    return new Found(problems, reading.texts());
  }

  private boolean isOwnFragment(String file) {
    return ownFragments.values().stream().anyMatch(f -> f.file().equals(file));
  }

  /** A fragment is read as part of a pack that uses it and all the others. */
  private Found ofFragment(YamlText text) {
    Optional<String> name = name(text);
    if (name.isEmpty()) {
      return new Found(
          List.of(
              Problem.error(
                  FormatRule.BAD_ID.id(),
                  text.root().flatMap(r -> r.entry("fragment")).map(e -> e.at()).orElseThrow(),
                  "the name of a fragment is lower-case letters, digits and single hyphens",
                  "write it as in 'fragment: handset-basics'")),
          text.source());
    }
    Map<String, YamlText> own = new LinkedHashMap<>(ownFragments);
    own.put(name.get(), text);
    Fragments all = new OwnFirst(own, Fragments.shared());
    String pack =
        "pack: lint/fragment\nversion: 1.0.0\nformat: 1\ntitle: t\nbasis: sources-only\nuses: "
            + all.names();
    PackReading reading = new PackReader(all).read("(the pack around it)", pack);
    return new Found(
        reading.problems().stream()
            .filter(p -> p.where().map(Span::file).equals(Optional.of(text.file())))
            .toList(),
        reading.texts());
  }

  private Found ofCase(YamlText text) {
    Optional<PackReading> reading = CaseReader.packNamedIn(text).map(readings::get);
    if (reading.isPresent() && reading.get() instanceof PackReading.Readable readable) {
      return found(new CaseReader(readable.pack()).read(text));
    } else if (reading.isPresent()) {
      return new Found(
          List.of(),
          text.source(),
          Optional.of(
              text.file()
                  + " was not looked at, because its pack has errors; mend the pack first"));
    }
    Optional<Path> around =
        text.file().equals(Sources.STANDARD_INPUT)
            ? Optional.empty()
            : Bundle.packsAround(Path.of(text.file()));
    return found(CaseReader.read(text, packs.library(around)));
  }

  private static Found found(CaseReading reading) {
    return new Found(reading.problems(), reading.texts());
  }

  private static Found ofShop(YamlText text) {
    ShopReading reading = ShopReader.read(text);
    return new Found(reading.problems(), reading.texts());
  }

  private static Found ofUnknown(YamlText text) {
    if (!text.problems().isEmpty()) {
      return new Found(text.problems(), text.source());
    }
    return new Found(
        List.of(
            Problem.error(
                FormatRule.MISSING_KEY.id(),
                new Span(text.file(), 1, 1, 1),
                "the file does not say what it is: a pack, a fragment, a case or a shop",
                "begin it with 'pack:', 'fragment:', 'case:' or 'shop:'")),
        text.source());
  }

  private static Optional<String> name(YamlText fragment) {
    return fragment.root().flatMap(r -> r.text("fragment")).filter(Id::isWellSpelt);
  }

  /** Fragments by name, those that are linted before those that come along. */
  private record OwnFirst(Map<String, YamlText> own, Fragments others) implements Fragments {
    @Override
    public Optional<YamlText> find(String name) {
      return Optional.ofNullable(own.get(name)).or(() -> others.find(name));
    }

    @Override
    public List<String> names() {
      List<String> all = new ArrayList<>(own.keySet());
      others.names().stream().filter(n -> !own.containsKey(n)).forEach(all::add);
      return all;
    }
  }
}
