using Nursery.Web.Hosting;

return await Verbs.RunAsync(args);
