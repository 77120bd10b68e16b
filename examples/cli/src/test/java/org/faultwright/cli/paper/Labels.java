package org.faultwright.cli.paper;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Provide;

/** What the words of a pack may hold, innocent or not. */
abstract class Labels {

  @Provide
  Arbitrary<String> labels() {
    Arbitrary<String> pieces =
        Arbitraries.of(
            "<script>alert(1)</script>",
            "</svg><img src=x onerror=alert(1)>",
            "]]>",
            "<!--",
            "&amp;",
            "&#x3c;b&#x3e;",
            "\"quoted\"",
            "'single'",
            "`code`",
            "``",
            "a | b",
            "|",
            "line\nline",
            "\r\n\r\n# heading",
            "\t",
            "**bold**",
            "__bold__",
            "_x_",
            "~~gone~~",
            "[link](javascript:alert(1))",
            "![image](http://example.invalid/x.png)",
            "http://example.invalid/?a=b&c=d",
            "www.example.invalid",
            "someone@example.invalid",
            "<http://example.invalid>",
            "- item",
            "1. item",
            "> quote",
            "+",
            "===",
            "---",
            "    indented",
            "\\",
            "\\*",
            "$x$",
            "{{x}}",
            "${x}",
            "\u202eright to left\u202c",
            "\u200f",
            "\u05e2\u05d1\u05e8\u05d9\u05ea",
            "\u0627\u0644\u0639\u0631\u0628\u064a\u0629",
            "\u4e2d\u6587\u5b57",
            "\ud83d\udd0b",
            "e\u0301\u0301\u0301",
            "\ufdfd",
            "\u0000",
            "\u001b[31m",
            "\ufeff",
            "W".repeat(120),
            "Donaudampfschifffahrtselektrizit\u00e4tenhauptbetriebswerkbauunterbeamter",
            "5 V",
            "10 %",
            "plain words",
            "\u03a9");
    return Arbitraries.oneOf(pieces, Arbitraries.strings().ofMaxLength(20))
        .list()
        .ofMinSize(1)
        .ofMaxSize(6)
        .map(all -> "x" + String.join(" ", all));
  }

  /** Those that a pack may hold: no halves of letters. */
  @Provide
  Arbitrary<String> printable() {
    return labels()
        .filter(
            text -> text.codePoints().noneMatch(c -> Character.getType(c) == Character.SURROGATE));
  }
}
