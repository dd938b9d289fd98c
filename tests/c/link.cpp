// The header from C++: it compiles, links without mangling, and drops nothing on the way.
#include "layout.h"
#include "spotwise.h"

#include <cstdio>

int main()
{
    spotwise_focused_beam focused;
    spotwise_focused_beam_init(&focused);
    spotwise_error error;
    spotwise_error_init(&error);
    const spotwise_status status =
        spotwise_focus_collimated(10.6e-6, 1.2, 7e-3, 38.1e-3, &focused, &error);
    if (status != SPOTWISE_OK || error.code != SPOTWISE_OK) {
        std::printf("%s: %s\n", spotwise_parameter_name(error.parameter), spotwise_status_text(status));
        return 1;
    }
    const double off = focused.waist_diameter_m - 88.143e-6;
    return off > -0.5e-9 && off < 0.5e-9 ? 0 : 1;
}
