package org.faultwright.pack.reader;

import java.util.Map;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.problem.Span;

/** Collects where each statement of a file stands, by the keys that lead to it. */
final class Places {

  private Places() {}

  /** Adds the places of a tree; what has a place already keeps it. */
  static void collect(YamlMap root, Map<String, Span> spans) {
    collect("", root, spans);
  }

  private static void collect(String path, YamlNode node, Map<String, Span> spans) {
    if (node instanceof YamlMap map) {
      for (Entry e : map.entries()) {
        String inner = path.isEmpty() ? e.name() : path + "/" + e.name();
        spans.putIfAbsent(inner, e.at());
        collect(inner, e.value(), spans);
      }
    } else if (node instanceof YamlList list) {
      for (int i = 0; i < list.items().size(); i++) {
        YamlNode item = list.items().get(i);
        spans.putIfAbsent(path + "/" + i, item.at());
        collect(path + "/" + i, item, spans);
      }
    }
  }
}
