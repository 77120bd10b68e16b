package org.faultwright.pack.format;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Nearest;

/**
 * Misspelt keys of a block, and what they were probably meant to be. A slip is one problem: what is
 * said under the key counts as said, so that the slip does not look like an omission as well.
 */
public final class Slips {

  private Slips() {}

  /** The entries whose keys the block does not have, each with what its key was meant to be. */
  static Map<Entry, Optional<String>> in(YamlMap map, List<String> keys) {
    if (map.entries().stream().allMatch(e -> keys.contains(e.name()))) {
      return Map.of();
    }
    List<String> free = new ArrayList<>(keys);
    map.entries().forEach(e -> free.remove(e.name()));
    Map<Entry, Optional<String>> slips = new LinkedHashMap<>();
    for (Entry e : map.entries()) {
      if (!keys.contains(e.name())) {
        Optional<String> meant = Nearest.of(e.name(), free);
        meant.ifPresent(free::remove);
        slips.put(e, meant);
      }
    }
    return slips;
  }

  /** The block as it was probably meant. */
  public static YamlMap corrected(YamlMap map, List<String> keys) {
    Map<Entry, Optional<String>> slips = in(map, keys);
    if (slips.isEmpty()) {
      return map;
    }
    return new YamlMap(
        map.at(),
        map.entries().stream()
            .map(e -> renamed(e, slips.getOrDefault(e, Optional.empty())))
            .toList());
  }

  private static Entry renamed(Entry e, Optional<String> meant) {
    return meant.map(m -> new Entry(new YamlScalar(e.key().at(), m, true), e.value())).orElse(e);
  }
}
