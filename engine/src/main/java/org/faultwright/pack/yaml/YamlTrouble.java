package org.faultwright.pack.yaml;

import java.util.Locale;
import org.yaml.snakeyaml.error.MarkedYAMLException;

/** The parser's complaints, in words for somebody who does not know its grammar. */
final class YamlTrouble {

  private YamlTrouble() {}

  static String inWords(MarkedYAMLException e) {
    String problem = problem(e);
    if (problem.contains("mapping values are not allowed")) {
      return "a ':' is not expected here";
    } else if (problem.contains("<stream end>") || problem.contains("unexpected end of stream")) {
      return "the file ends too early: something that was opened is not closed";
    } else if (problem.contains("could not find expected ':'")) {
      return "a key without ':'";
    } else if (problem.contains("cannot start any token")) {
      return "a value cannot begin with this character";
    } else if (problem.contains("expected <block end>")) {
      return "this line is not indented like the ones it belongs to";
    } else if (problem.contains("expected ',' or")) {
      return "a ',' or a closing bracket is missing before this";
    }
    return "this is not well-formed YAML";
  }

  static String wayOut(MarkedYAMLException e) {
    String problem = problem(e);
    if (problem.contains("mapping values are not allowed")) {
      return "put text that has ': ' in it in quotes, and check the indentation";
    } else if (problem.contains("cannot start any token")) {
      return "put the value in quotes";
    } else if (problem.contains("<stream end>") || problem.contains("unexpected end of stream")) {
      return "check the quotes and brackets, and that the file is complete";
    } else if (problem.contains("expected ':'")) {
      return "a key needs ':' and a space after it";
    }
    return "check indentation, brackets and quotes here and in the line above";
  }

  private static String problem(MarkedYAMLException e) {
    return e.getProblem() == null ? "" : e.getProblem().toLowerCase(Locale.ROOT);
  }
}
