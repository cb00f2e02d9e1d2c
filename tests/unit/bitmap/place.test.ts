import { describe, expect, test } from "vitest";
import { openText } from "../../../shared/bitmap/open.ts";
import { placed, placeNear } from "../../../shared/bitmap/place.ts";
import { applyEdits } from "../../../shared/source/text.ts";

/** The text with `NEW;` put at the place nearest to the `|`. */
function put(marked: string): string {
  const at = marked.indexOf("|");
  const text = marked.replace("|", "");
  const { source } = openText(text, "art.h");
  return applyEdits(text, [placed(placeNear(source, at), "NEW;", "\n").edit]);
}

describe("a new statement stands", () => {
  test.each([
    ["in an empty file", "|", "NEW;\n"],
    ["on a blank line between others", "int a;\n\n|\n\nint b;\n", "int a;\n\nNEW;\n\nint b;\n"],
    ["set off from its neighbours", "int a;\n|\nint b;\n", "int a;\n\nNEW;\n\nint b;\n"],
    [
      "with the cursor's indentation",
      "namespace n {\n  int a;\n\n  |\n}\n",
      "namespace n {\n  int a;\n\n  NEW;\n\n}\n",
    ],
    ["after the statement of the cursor", "int a = |1;\nint b;\n", "int a = 1;\n\nNEW;\n\nint b;\n"],
    ["after a statement at its end", "int a;|\n\nint b;\n", "int a;\n\nNEW;\n\nint b;\n"],
    ["after all on the line", "int a; int| b; // both\n", "int a; int b; // both\n\nNEW;\n"],
    [
      "after a list",
      "const int a[] = {\n  1,\n  |\n  2,\n};\nint b;\n",
      "const int a[] = {\n  1,\n  \n  2,\n};\n\nNEW;\n\nint b;\n",
    ],
    ["after a function", "void f() {\n  g();\n|\n}\nint b;\n", "void f() {\n  g();\n\n}\n\nNEW;\n\nint b;\n"],
    ["after a type", "struct S {\n  int a;\n|\n};\n", "struct S {\n  int a;\n\n};\n\nNEW;\n"],
    ["after a comment", "/* one\n | two\n*/\n\nint b;\n", "/* one\n  two\n*/\n\nNEW;\n\nint b;\n"],
    ["not between a comment and its statement", "/* a| */\nint a;\n\nint b;\n", "/* a */\nint a;\n\nNEW;\n\nint b;\n"],
    [
      "not between an annotation and its array",
      "// @bitmap 1x1\n\n|\nconst uint8_t a[] = {1};\n",
      "// @bitmap 1x1\n\n\nconst uint8_t a[] = {1};\n\nNEW;\n",
    ],
    [
      "before an annotation that waits for its array",
      "int a;\n\n// @bitmap 1x1\n|",
      "int a;\n\nNEW;\n\n// @bitmap 1x1\n",
    ],
    ["after a directive", "#include <a.h>|\n#include <b.h>\n", "#include <a.h>\n\nNEW;\n\n#include <b.h>\n"],
    ["inside a condition", "#if A\n|\n#endif\n", "#if A\n\nNEW;\n\n#endif\n"],
    ["after a macro of several lines", "#define A \\\n | 1\nint a;\n", "#define A \\\n  1\n\nNEW;\n\nint a;\n"],
    [
      "after a function in two variants",
      "#if A\nvoid f() {\n#else\nvoid g() {\n#endif\n |\n}\nint b;\n",
      "#if A\nvoid f() {\n#else\nvoid g() {\n#endif\n \n}\n\nNEW;\n\nint b;\n",
    ],
    ["inside extern C", 'extern "C" {\n|\n}\n', 'extern "C" {\n\nNEW;\n\n}\n'],
    ["at the end of a file without a line break", "int a;|", "int a;\n\nNEW;\n"],
  ])("%s", (_, marked, expected) => {
    expect(put(marked)).toBe(expected);
  });

  test("with the line ends of Windows", () => {
    const text = "int a;\r\n\r\nint b;\r\n";
    const { source } = openText(text, "art.h");
    expect(applyEdits(text, [placed(placeNear(source, 8), "NEW;", "\r\n").edit])).toBe(
      "int a;\r\n\r\nNEW;\r\n\r\nint b;\r\n",
    );
  });
});
