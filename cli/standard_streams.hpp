// Standard input, output and error, as whoever started the program left them.
#pragma once

namespace lidlift::cli {

/// Keeps the place of each standard stream that was closed (`lidlift log ... 2>&-`), so that no file opened later takes it and
/// an error message never ends up in a tank's record. Reading or writing such a stream still fails. To be called before
/// anything is opened.
void reserve_standard_streams();

}  // namespace lidlift::cli
