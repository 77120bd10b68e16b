/**
 * Text that a person wrote, read into a tree whose nodes know where they stand. A file is untrusted
 * input: whatever is not plain YAML within limits is refused here, before anybody looks at what it
 * says.
 *
 * <p>Entry type: {@code YamlText}. Uses {@code problem} alone.
 */
package org.faultwright.pack.yaml;
