# Names of what a forecast takes.
field-forecast_consistency = Consistency of the bath
field-forecast_lightness = Lightness of the pulp at the start
field-forecast_strength = Oxidant in the bath
field-forecast_time = Times of the forecast
