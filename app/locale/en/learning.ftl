# How a forecast goes beyond own baths.
learning-longer = Longer than your own baths: the longest had { $longest }. What comes after is a guess of the law alone.
learning-warmer = More than 10 °C warmer than your own baths: the warmest had { $warmest }.
learning-cooler = More than 10 °C cooler than your own baths: the coolest had { $coolest }.
