using Nursery.Agronomy.Fitting;

// Fits the emergence defaults to the published tables and writes what the library and the docs carry.
// Run from the checkout's root: dotnet run --project tests/Nursery.Agronomy.Fitting
var fits = CropFit.All("tests/reference");
File.WriteAllText("src/Nursery.Agronomy/Emergence/emergence-defaults.csv", FitTables.Defaults(fits));
File.WriteAllText("src/Nursery.Agronomy/Emergence/emergence-printed.csv", FitTables.Printed(fits));
Directory.CreateDirectory("docs/agronomy");
File.WriteAllText("docs/agronomy/emergence-fit.svg", FitPlot.Svg(fits));
File.WriteAllText("docs/agronomy/emergence-fit.md", FitReport.Markdown(fits));
