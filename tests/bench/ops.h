// What is drawn on pages, as a flat list: the common ground of our program and the yardsticks.
#pragma once

namespace bench {

/// `kind`: P page (width, height) | f fill, s stroke color (r, g, b of 0 to 1) | w line width | d dash (count, on, off
/// ..) | R caps and joins round or not | T text (x, y, size, face) | m l c h path | F S B E paint (E: even-odd fill) |
/// q Q | r clip (x, y, width, height). Points, y upwards.
struct Op {
  char kind;
  float a[6];
  const char* text;
};

}  // namespace bench
