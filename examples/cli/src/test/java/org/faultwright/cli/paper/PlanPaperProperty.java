package org.faultwright.cli.paper;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import javax.xml.parsers.DocumentBuilderFactory;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.Emphasis;
import org.commonmark.node.FencedCodeBlock;
import org.commonmark.node.HardLineBreak;
import org.commonmark.node.HtmlBlock;
import org.commonmark.node.HtmlInline;
import org.commonmark.node.Image;
import org.commonmark.node.IndentedCodeBlock;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.node.OrderedList;
import org.commonmark.node.SoftLineBreak;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.faultwright.cli.text.PlanExamples;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** Whatever the words of a pack hold, a page shows them as words and does nothing else. */
class PlanPaperProperty extends Labels {

  private static final String ASKS_OR_RUNS =
      "script|img|iframe|object|embed|link|foreignObject|use";
  private static final Path PACK =
      Path.of("src/test/resources/packs/plover-tablet/sound/pack.yaml");

  /** The pack of the examples with these words for the titles of a step, a caution and a hold. */
  private static Pack pack(String step, String caution, String how) throws IOException {
    String text =
        Files.readString(PACK)
            .replace("\"Look at the grille with a loupe\"", quoted(step))
            .replace("\"Start quietly: a full-scale tone at the ear hurts.\"", quoted(caution))
            .replace(
                "\"Touch the tips together first and subtract what the leads show.\"", quoted(how));
    PackReading reading = new PackReader().read(YamlText.of("pack.yaml", text));
    Assume.that(reading instanceof PackReading.Readable);
    return reading.readable().pack();
  }

  /** As YAML has it, with every letter that a file cannot hold as it is spelt by its number. */
  private static String quoted(String text) {
    StringBuilder quoted = new StringBuilder();
    for (char c : text.toCharArray()) {
      boolean plain = c >= ' ' && c < 0x7f && c != '"' && c != '\\';
      quoted.append(plain ? String.valueOf(c) : String.format("\\u%04x", (int) c));
    }
    return '"' + quoted.toString() + '"';
  }

  @Property(tries = 60)
  void htmlHoldsTheWordsAndNoMoreElements(
      @ForAll @From("printable") String step,
      @ForAll @From("printable") String caution,
      @ForAll @From("printable") String how)
      throws Exception {
    Pack pack = pack(step, caution, how);
    Document page = parsed(PaperExamples.paper(pack, PlanExamples.answer()).html());
    Document plain = parsed(PaperExamples.paper().html());

    assertThat(names(page)).isEqualTo(names(plain));
    assertThat(names(page)).noneMatch(name -> name.matches(ASKS_OR_RUNS));
    String words = page.getDocumentElement().getTextContent();
    assertThat(words).contains(Plain.of(how), Plain.of(caution));
    assertThat(words.codePoints().map(Character::getType))
        .doesNotContain((int) Character.FORMAT, (int) Character.PRIVATE_USE);
  }

  private static Document parsed(String html) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setExpandEntityReferences(false);
    return factory.newDocumentBuilder().parse(new ByteArrayInputStream(html.getBytes(UTF_8)));
  }

  /** Every element with the names of its attributes. */
  private static Set<String> names(Document page) {
    Set<String> names = new TreeSet<>();
    NodeList all = page.getElementsByTagName("*");
    for (int i = 0; i < all.getLength(); i++) {
      Element element = (Element) all.item(i);
      names.add(element.getTagName());
      for (int a = 0; a < element.getAttributes().getLength(); a++) {
        String attribute = element.getAttributes().item(a).getNodeName();
        assertThat(attribute).doesNotStartWith("on").doesNotContain("src", "style");
        if (attribute.equals("href")) {
          assertThat(element.getAttribute(attribute)).matches("#(part|step)-[0-9]+");
        }
      }
    }
    return names;
  }

  @Property(tries = 60)
  void markdownIsReadAsTheSameWords(
      @ForAll @From("printable") String step,
      @ForAll @From("printable") String caution,
      @ForAll @From("printable") String how)
      throws Exception {
    Pack pack = pack(step, caution, how);
    String markdown = PaperExamples.paper(pack, PlanExamples.answer()).markdown();
    Node page =
        Parser.builder().extensions(List.of(TablesExtension.create())).build().parse(markdown);
    Node plain =
        Parser.builder()
            .extensions(List.of(TablesExtension.create()))
            .build()
            .parse(PaperExamples.paper().markdown());
    Seen seen = new Seen();
    page.accept(seen);
    Seen usual = new Seen();
    plain.accept(usual);

    assertThat(seen.marks).isEmpty();
    assertThat(seen.blocks).isEqualTo(usual.blocks);
    assertThat(seen.words.toString()).contains(Plain.of(how), Plain.of(caution));
  }

  /** What a reader of CommonMark makes of a page. */
  private static final class Seen extends AbstractVisitor {
    private final StringBuilder words = new StringBuilder();
    private final Set<String> marks = new TreeSet<>();
    private int blocks;

    @Override
    public void visit(Text text) {
      words.append(text.getLiteral());
    }

    @Override
    protected void visitChildren(Node parent) {
      blocks++;
      if (parent instanceof Link
          || parent instanceof Image
          || parent instanceof Emphasis
          || parent instanceof OrderedList) {
        marks.add(parent.getClass().getSimpleName());
      }
      super.visitChildren(parent);
    }

    @Override
    public void visit(HtmlInline html) {
      marks.add("html");
    }

    @Override
    public void visit(HtmlBlock html) {
      marks.add("html");
    }

    @Override
    public void visit(Code code) {
      marks.add("code");
    }

    @Override
    public void visit(IndentedCodeBlock code) {
      marks.add("code");
    }

    @Override
    public void visit(FencedCodeBlock code) {
      marks.add("code");
    }

    @Override
    public void visit(SoftLineBreak line) {
      marks.add("line");
    }

    @Override
    public void visit(HardLineBreak line) {
      marks.add("line");
    }
  }
}
