#include "inkturn/statistics/figure.hpp"

#include "inkturn/base/error.hpp"

namespace inkturn {

double Figure::value() const {
    if (const double* value = std::get_if<double>(&held_))
        return *value;
    throw Error("this figure has no value", Error::Kind::misused);
}

NoFigure Figure::why() const {
    if (const NoFigure* why = std::get_if<NoFigure>(&held_))
        return *why;
    throw Error("there is a figure, so no reason for its absence", Error::Kind::misused);
}

} // namespace inkturn
