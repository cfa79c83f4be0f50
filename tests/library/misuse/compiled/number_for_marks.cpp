// refused: full_marks|inkturn::Marks
#include <inkturn/paper/marks.hpp>

inkturn::PartMarks marks() {
#ifdef WRONG
    return inkturn::full_marks(4);
#else
    return inkturn::full_marks(inkturn::Marks(4));
#endif
}
