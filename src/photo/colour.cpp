#include "photo/colour.h"

#include <lcms2.h>

namespace soundsill::photo {

namespace {

struct CloseProfile {
  void operator()(void* profile) const { cmsCloseProfile(profile); }
};
struct DeleteTransform {
  void operator()(void* transform) const { cmsDeleteTransform(transform); }
};
struct FreeCurve {
  void operator()(cmsToneCurve* curve) const { cmsFreeToneCurve(curve); }
};
using Profile = std::unique_ptr<void, CloseProfile>;
using Transform = std::unique_ptr<void, DeleteTransform>;
using Curve = std::unique_ptr<cmsToneCurve, FreeCurve>;

/// opRGB: the corners and gamma of IEC 61966-2-5, white D65.
Profile wide_profile() {
  constexpr cmsCIExyY white{0.3127, 0.3290, 1.0};
  constexpr cmsCIExyYTRIPLE corners{{0.64, 0.33, 1.0}, {0.21, 0.71, 1.0}, {0.15, 0.06, 1.0}};
  const Curve gamma(cmsBuildGamma(nullptr, 563.0 / 256.0));
  cmsToneCurve* curves[] = {gamma.get(), gamma.get(), gamma.get()};
  return Profile(cmsCreateRGBProfile(&white, &corners, curves));
}

/// sRGB's steps and white with other corners, by their number in ITU-T H.273: 9 is BT.2020, 12 is Display P3.
Profile numbered_profile(int primaries) {
  constexpr cmsCIExyY white{0.3127, 0.3290, 1.0};
  constexpr cmsCIExyYTRIPLE bt2020{{0.708, 0.292, 1.0}, {0.170, 0.797, 1.0}, {0.131, 0.046, 1.0}};
  constexpr cmsCIExyYTRIPLE p3{{0.680, 0.320, 1.0}, {0.265, 0.690, 1.0}, {0.150, 0.060, 1.0}};
  if (primaries != 9 && primaries != 12) return {};
  constexpr cmsFloat64Number srgb[] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  const Curve curve(cmsBuildParametricToneCurve(nullptr, 4, srgb));
  cmsToneCurve* curves[] = {curve.get(), curve.get(), curve.get()};
  return Profile(cmsCreateRGBProfile(&white, primaries == 9 ? &bt2020 : &p3, curves));
}

/// Grey with the steps of sRGB, so that grey and coloured photos are equally bright.
Profile grey_profile() {
  constexpr cmsFloat64Number srgb[] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  const Curve curve(cmsBuildParametricToneCurve(nullptr, 4, srgb));
  return Profile(cmsCreateGrayProfile(cmsD50_xyY(), curve.get()));
}

struct Layout {
  cmsColorSpaceSignature space;
  cmsUInt32Number stored;
  cmsUInt32Number wanted;
};

Layout layout_of(const Shape& shape) {
  if (shape.channels == 1) return {cmsSigGrayData, TYPE_GRAY_8, TYPE_GRAY_8};
  if (shape.channels == 3) return {cmsSigRgbData, TYPE_RGB_8, TYPE_RGB_8};
  return {cmsSigCmykData, static_cast<cmsUInt32Number>(shape.inverted ? TYPE_CMYK_8_REV : TYPE_CMYK_8), TYPE_RGB_8};
}

Profile source_profile(const Shape& shape, const Layout& layout, bool wide_colours) {
  if (!shape.profile.empty()) {
    Profile stored(cmsOpenProfileFromMem(shape.profile.data(), static_cast<cmsUInt32Number>(shape.profile.size())));
    if (stored && cmsGetColorSpace(stored.get()) == layout.space) return stored;
    return {};
  }
  if (shape.primaries != 0 && layout.space == cmsSigRgbData) return numbered_profile(shape.primaries);
  return wide_colours && layout.space == cmsSigRgbData ? wide_profile() : Profile{};
}

/// Nothing when the pixels need no profile, or theirs cannot be used.
Transform make_transform(const Shape& shape, bool wide_colours) {
  const Layout layout = layout_of(shape);
  const Profile from = source_profile(shape, layout, wide_colours);
  if (!from) return {};
  const Profile to = shape.channels == 1 ? grey_profile() : Profile(cmsCreate_sRGBProfile());
  return Transform(cmsCreateTransform(from.get(), layout.stored, to.get(), layout.wanted, INTENT_PERCEPTUAL, 0));
}

Pixels transformed(const Pixels& pixels, void* transform) {
  Pixels result(pixels.width, pixels.height, pixels.channels == 1 ? 1 : 3);
  for (std::size_t y = 0; y < static_cast<std::size_t>(pixels.height); ++y)
    cmsDoTransform(transform, pixels.bytes.data() + y * pixels.row_size(), result.bytes.data() + y * result.row_size(),
                   static_cast<cmsUInt32Number>(pixels.width));
  return result;
}

/// Without a profile, ink is taken to swallow light evenly.
Pixels plain_cmyk(const Pixels& pixels, bool inverted) {
  Pixels result(pixels.width, pixels.height, 3);
  const unsigned flip = inverted ? 0 : 255;
  std::uint8_t* to = result.bytes.data();
  for (std::size_t at = 0; at < pixels.bytes.size(); at += 4) {
    const unsigned light = flip ^ pixels.bytes[at + 3];
    for (std::size_t c = 0; c < 3; ++c)
      *to++ = static_cast<std::uint8_t>(((flip ^ pixels.bytes[at + c]) * light + 127) / 255);
  }
  return result;
}

}  // namespace

Pixels to_srgb(Pixels pixels, const Shape& shape, bool wide_colours) {
  if (const Transform transform = make_transform(shape, wide_colours)) return transformed(pixels, transform.get());
  return shape.channels == 4 ? plain_cmyk(pixels, shape.inverted) : std::move(pixels);
}

}  // namespace soundsill::photo
