#pragma once

#include "inkturn/store/store.hpp"

#include <string>

namespace inkturn {

/// Writes a copy of all that is on file at one moment, though other programs write meanwhile, to a new file
/// that only its owner may read; checks it and puts it on the disk. Throws Error, of kind conflict if a file
/// of that name exists, of kind damaged if what is on file is.
void back_up(const Store& store, const std::string& to);

/// Puts what a copy holds in the place of the store in `file`, and brings its tables up to date. The copy is
/// checked first, and stays as it is. Returns the name of the file beside the store that keeps what the store
/// held; empty if there was no store. If the present store is too damaged to be read, it is kept as it is,
/// its journal too. Throws Error if the copy is not a sound store of this program or an older one, or is the
/// store itself, and where a file can't be read or written: the store then is as it was.
std::string restore_store(const std::string& copy, const std::string& file);

} // namespace inkturn
