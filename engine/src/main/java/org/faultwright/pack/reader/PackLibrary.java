package org.faultwright.pack.reader;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.PackId;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Nearest;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Span;

/**
 * The packs that a program can use: those that come on its class path, and those in folders that
 * the caller names. A pack in a folder stands before one of the same id on the class path, and a
 * folder before those added after it.
 *
 * <p>What packs there are is found out once, when the library is made; a pack is read anew each
 * time it is asked for. Immutable, and safe for use by several threads.
 */
public final class PackLibrary {

  /** Id of the problem that a pack is asked for and not there. */
  public static final String UNKNOWN_PACK = "unknown-pack";

  /** Id of the problem that a pack has another name than its folder. */
  public static final String MISPLACED_PACK = "misplaced-pack";

  /** Id of the problem that two packs that are used as one contradict each other. */
  public static final String PACKS_CLASH = "packs-clash";

  /** Id of the problem that two such packs say differently how likely a cause is. */
  public static final String PACKS_DIFFER = "packs-differ";

  /**
   * A pack that can be read.
   *
   * @param title its title, where its file says one
   * @param version its version, where its file says one
   * @param place the file, as shown in messages
   */
  public record Listed(PackId id, Optional<String> title, Optional<String> version, String place) {}

  private final Map<PackId, PackPlace> places;
  private final PackReader reader;

  private PackLibrary(Map<PackId, PackPlace> places, PackReader reader) {
    this.places = Ordered.copy(places);
    this.reader = reader;
  }

  /** The packs on the class path. */
  public static PackLibrary onClassPath() {
    return new PackLibrary(Map.of(), new PackReader()).and(PackPlace.onClassPath());
  }

  /** No packs yet, read with other fragments than those that come with the library. */
  public static PackLibrary with(Fragments fragments) {
    return new PackLibrary(Map.of(), new PackReader(fragments));
  }

  /**
   * These packs and those in a folder, which holds {@code family/subsystem/pack.yaml}. What these
   * packs have already stays as it is; a folder that is not there adds nothing.
   */
  public PackLibrary and(Path folder) {
    return and(PackPlace.in(folder));
  }

  /** The packs in a folder, and behind them these packs. */
  public PackLibrary after(Path folder) {
    return new PackLibrary(Map.of(), reader).and(PackPlace.in(folder)).and(places);
  }

  private PackLibrary and(Map<PackId, PackPlace> more) {
    Map<PackId, PackPlace> all = new LinkedHashMap<>(places);
    more.forEach(all::putIfAbsent);
    return new PackLibrary(all, reader);
  }

  /** The ids of all packs, in the order in which they were found. */
  public Set<PackId> ids() {
    return places.keySet();
  }

  /** All packs with their titles and versions, by id. */
  public List<Listed> list() {
    List<Listed> all = new ArrayList<>();
    places.forEach(
        (id, place) -> {
          YamlText text = place.text();
          all.add(
              new Listed(
                  id,
                  text.root().flatMap(r -> r.text("title")),
                  text.root().flatMap(r -> r.text("version")),
                  place.name()));
        });
    all.sort(Comparator.comparing(Listed::id));
    return all;
  }

  /**
   * Reads a pack, or several as one where the id names several; empty when one is not there.
   *
   * @see org.faultwright.pack.merge.PackMerge
   */
  public Optional<PackReading> read(PackId id) {
    if (!id.isSeveral()) {
      return readOne(id);
    }
    List<PackReading> each = new ArrayList<>();
    for (PackId one : id.each()) {
      Optional<PackReading> reading = readOne(one);
      if (reading.isEmpty()) {
        return Optional.empty();
      }
      each.add(reading.get());
    }
    return Optional.of(SeveralPacks.together(each));
  }

  private Optional<PackReading> readOne(PackId id) {
    return Optional.ofNullable(places.get(id))
        .map(place -> reader.read(place.text()))
        .map(reading -> asNamed(id, reading));
  }

  /** A pack must be called what its folder says, or nobody would find it again. */
  private static PackReading asNamed(PackId id, PackReading reading) {
    if (reading instanceof PackReading.Readable r && !r.pack().id().equals(id)) {
      Problem misplaced =
          Problem.error(
              MISPLACED_PACK,
              r.at().of("pack"),
              "the pack is called '" + r.pack().id() + "', and its folder '" + id + "'",
              "give both the same name");
      return new PackReading.Unreadable(List.of(misplaced), r.texts());
    }
    return reading;
  }

  /** The problem that there is no such pack, for whoever asked for it. */
  public Problem unknown(PackId id, Span at) {
    List<String> known = places.keySet().stream().map(PackId::toString).sorted().toList();
    PackId missing =
        id.each().stream().filter(one -> !places.containsKey(one)).findFirst().orElse(id);
    return Problem.error(
        UNKNOWN_PACK,
        at,
        "there is no pack '" + missing + "'",
        Nearest.of(missing.toString(), known)
            .map(n -> "did you mean '" + n + "'?")
            .orElse(
                known.isEmpty()
                    ? "there are no packs at all"
                    : "there are: " + String.join(", ", known)));
  }
}
