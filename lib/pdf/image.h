#pragma once
// Photographs as image XObjects.

#include "canvas/image.h"
#include "pdf/objects.h"

namespace dogear::pdf {

// JPEG data is put in as it is; dots are packed without loss.
HPDF_Dict write_image(Objects& objects, const canvas::Raster& raster);

}  // namespace dogear::pdf
