System.Console.WriteLine("No benchmarks yet.");
